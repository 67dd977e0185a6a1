// Every page's script: the choice of units and of light, and the loading of the
// scripts for a form of readings and for charts, where a page has them. All are
// classic scripts without dependencies, so that they also run from a disk
// (file:), where modules and fetch are refused. Without them every page is
// still whole: it shows the demo's readings, worked when the page was built.
"use strict";

(() => {
  const root = document.documentElement;
  const here = document.currentScript.src;

  /** Reads a remembered text; null if there is none or storage is blocked. */
  function recall(key) {
    try { return localStorage.getItem(key); } catch { return null; }
  }

  /** Remembers a text, or forgets it when null; false if storage is blocked. */
  function remember(key, text) {
    try {
      if (text === null) localStorage.removeItem(key);
      else localStorage.setItem(key, text);
      return true;
    } catch { return false; }
  }

  /** The content of a <meta name=…>, or null. */
  function meta(name) {
    const found = document.querySelector(`meta[name="${name}"]`);
    return found && found.content;
  }

  /** Gives the reader a text as a file. */
  function saveFile(text, name, type) {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([text], { type }));
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  }

  const scripts = new Map();

  /** Loads a classic script once; the promise fails with a plain sentence. */
  function loadScript(address) {
    if (!scripts.has(address)) {
      scripts.set(address, new Promise((resolve, reject) => {
        const element = document.createElement("script");
        element.src = address;
        element.async = false; // in the order in which they were asked for
        element.onload = resolve;
        element.onerror = () => {
          scripts.delete(address);
          element.remove();
          reject(new Error("a file of this site, " + address.replace(/.*\//, "") + ", could not be read"));
        };
        document.head.append(element);
      }));
    }
    return scripts.get(address);
  }

  // --- Units and light ------------------------------------------------------

  const choices = { units: ["metric", "inch"], theme: ["auto", "light", "dark"] };

  /** Shows the whole page in the given units or light. */
  function choose(name, value) {
    if (!choices[name].includes(value)) return;
    root.dataset[name] = value;
    for (const button of document.querySelectorAll(`[data-set-${name}]`)) {
      button.setAttribute("aria-pressed", String(button.getAttribute("data-set-" + name) === value));
    }
    document.dispatchEvent(new Event("look"));
  }

  function wakeSwitches() {
    for (const name of Object.keys(choices)) {
      choose(name, root.dataset[name]);
      for (const button of document.querySelectorAll(`[data-set-${name}]`)) {
        button.addEventListener("click", () => {
          const value = button.getAttribute("data-set-" + name);
          remember("thouspan:" + name, value);
          choose(name, value);
        });
      }
    }
    for (const place of document.querySelectorAll(".switches")) place.hidden = false;
    // Another window of the same site was switched.
    addEventListener("storage", (event) => {
      const name = (event.key || "").replace("thouspan:", "");
      if (Object.hasOwn(choices, name) && event.newValue) choose(name, event.newValue);
    });
  }

  for (const name of Object.keys(choices)) choose(name, recall("thouspan:" + name));

  function wakePage() {
    wakeSwitches();
    const script = (name) => loadScript(new URL(name, here).href);
    if (document.querySelector("form.find")) script("search.js").catch(() => {});
    if (document.querySelector(".ledger-table")) script("ledger.js").catch(() => {});
    if (document.querySelector(".item.chart")) script("charts.js").catch(() => {});
    if (document.querySelector(".item.table, .item.chart")) script("download.js").catch(() => {});
    if (document.querySelector("form.readings") && meta("live")) {
      Promise.all([script("calculator.js"), script("form.js")])
        .then(() => document.querySelector(".handle") && script("drag.js")).catch(() => {});
    }
    if (document.querySelector(".machine-app, .machine-tools") && meta("live")) {
      Promise.all([script("calculator.js"), script("form.js"), script("machine.js")]).catch(() => {});
    }
    if (document.querySelector(".drill") && meta("live")) {
      Promise.all([script("calculator.js"), script("drill.js")]).catch(() => {});
    }
  }

  /** What the page's other scripts share. */
  window.thouspan = { recall, remember, meta, saveFile, loadScript };
  if (document.readyState === "loading") addEventListener("DOMContentLoaded", wakePage);
  else wakePage();
})();
