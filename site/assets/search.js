// The search box of every page's head, and the page of results. Results are
// plain links in a list: the arrows go from one to the next, Enter follows.
// The index is loaded when somebody begins to search.
"use strict";

(() => {
  const { loadScript } = window.thouspan;
  const here = document.currentScript.src;
  const root = new URL("..", here).href;
  const kinds = { lesson: "lesson", term: "word", page: "page", section: "section", formula: "formula" };
  const inHead = 8;
  let opened = null;

  /** Loads the index once. */
  function index() {
    opened ??= Promise.all(["find.js", "find-index.js"].map((name) => loadScript(new URL(name, here).href)))
      .then(() => window.thouspan.openIndex(window.thouspan.findIndex))
      .catch((problem) => { opened = null; throw problem; });
    return opened;
  }

  function element(tag, className, text) {
    const made = document.createElement(tag);
    if (className) made.className = className;
    if (text) made.textContent = text;
    return made;
  }

  /** One result as an item of a list. */
  function result({ kind, address, title, where, excerpt }) {
    const item = element("li");
    const link = element("a", "", title);
    link.href = root + address;
    const place = element("span", "where", where ? `${where}, ${kinds[kind]}` : kinds[kind]);
    item.append(link, " ", place);
    if (excerpt) item.append(element("span", "excerpt", excerpt));
    return item;
  }

  /** The address of the page of results. */
  const resultsPage = (text) => root + "search/index.html#q=" + encodeURIComponent(text);

  /** A box with what it finds below it. */
  class Finder {
    constructor(box, place, most) {
      this.box = box;
      this.place = place;
      this.most = most;
      this.asked = 0;
      this.status = element("p", "found");
      this.status.setAttribute("role", "status");
      this.list = element("ol", "results");
      place.append(this.status, this.list);
      box.addEventListener("input", () => this.find());
      box.addEventListener("focus", () => index().catch(() => {}));
      box.addEventListener("keydown", (event) => this.press(event));
      place.addEventListener("keydown", (event) => this.press(event));
    }

    /** Shows what is found for the box's text. */
    async find() {
      const text = this.box.value.trim();
      const asked = ++this.asked;
      let found = [];
      if (text) {
        try {
          const words = await index();
          found = window.thouspan.find(words, text, this.most);
        } catch (problem) {
          this.status.textContent = `Search does not work: ${problem.message}.`;
          this.open(true);
          return;
        }
      }
      if (asked !== this.asked) return;
      this.list.replaceChildren(...found.map(result));
      this.status.textContent = !text ? "" : found.length ? `${found.length} found. Arrow down goes through them.` : `Nothing found for “${text}”. Try one word of it, or the glossary.`;
      this.open(Boolean(text));
    }

    open(show) { this.place.hidden = !show; }

    /** The arrows go from the box through the results and back. */
    press(event) {
      const links = [...this.list.querySelectorAll("a")];
      const at = links.indexOf(document.activeElement);
      if (event.key === "Escape" && this.closes) {
        this.open(false);
        if (at >= 0) this.box.focus();
        return;
      }
      const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
      if (!step || !links.length || (at < 0 && event.target !== this.box)) return;
      event.preventDefault();
      this.open(true);
      const next = at + step;
      if (next < 0) this.box.focus();
      else links[Math.min(next, links.length - 1)].focus();
    }
  }

  /** The box in the head: its results hang below it, Enter goes to all of them. */
  function wakeHead(form) {
    const box = form.querySelector("input");
    const finder = new Finder(box, form.querySelector(".find-panel"), inHead);
    finder.closes = true;
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      if (box.value.trim()) location.href = resultsPage(box.value.trim());
    });
    form.addEventListener("focusout", (event) => { if (!form.contains(event.relatedTarget)) finder.open(false); });
    box.addEventListener("click", () => { if (box.value.trim()) finder.find(); });
    form.hidden = false;
  }

  /**
   * The page of results: a box of its own, filled from #q= or ?q=. What is typed
   * goes into the former, which a page on a disk may change too.
   */
  function wakePage(place) {
    document.querySelector(".without").hidden = true;
    const label = element("label", "", "Look for");
    const box = element("input");
    box.type = "search";
    box.id = "find-here";
    box.autocomplete = "off";
    box.spellcheck = false;
    label.htmlFor = box.id;
    const results = element("div", "found-here");
    place.append(label, box, results);
    const finder = new Finder(box, results, 40);
    const asked = new URLSearchParams(location.hash.slice(1)).get("q") ?? new URLSearchParams(location.search).get("q") ?? "";
    box.value = asked;
    place.hidden = false;
    box.addEventListener("input", () => history.replaceState(null, "", "#q=" + encodeURIComponent(box.value.trim())));
    finder.find();
    if (!asked) box.focus();
  }

  const page = document.querySelector(".find-page");
  const head = document.querySelector("form.find");
  if (page) wakePage(page);
  else if (head) wakeHead(head);
  addEventListener("keydown", (event) => {
    if (event.key !== "/" || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.target.closest?.("input, select, textarea, [contenteditable]")) return;
    const box = page?.querySelector("input") || head?.querySelector("input");
    if (!box) return;
    event.preventDefault();
    box.focus();
    box.select();
  });
})();
