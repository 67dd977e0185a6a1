// The reader's own machine: kept in this browser as one file, listed on its own
// page, and offered to each lesson's form. What the file means (reading, merging,
// checking, the card) the program answers; this keeps the text and shows it.
// Everything of the file is set as text, never as markup, but the card, which
// the program has escaped.
"use strict";

(() => {
  const { recall, meta, saveFile, Calculator } = window.thouspan;
  const storageKey = "thouspan:machine";
  const mostSteps = 20; // that can be undone
  const mostBytes = 4 << 20; // of a file: the program's own limit

  // --- What both the page and the lessons need ---------------------------------

  /** The reader's day, as 2025-05-24. */
  function today() {
    const now = new Date();
    return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, "0")).join("-");
  }

  /** What this browser keeps; null when it keeps nothing or storage is blocked. */
  const kept = () => recall(storageKey);

  /** Keeps a text. Returns "" or why it could not. */
  function keep(text) {
    try {
      if (text) localStorage.setItem(storageKey, text);
      else localStorage.removeItem(storageKey);
      return "";
    } catch (reason) {
      return reason && reason.name === "QuotaExceededError"
        ? "This browser’s storage is full: save your machine to a file before you leave this page."
        : "This browser does not keep anything for this page: save your machine to a file before you leave it.";
    }
  }

  /** An element with properties and children; texts are set as text. */
  function make(tag, properties = {}, ...children) {
    const element = document.createElement(tag);
    for (const [name, value] of Object.entries(properties)) {
      if (name in element) element[name] = value;
      else element.setAttribute(name, value);
    }
    element.append(...children.filter((child) => child !== null && child !== ""));
    return element;
  }

  const button = (words, press, properties = {}) => make("button", { type: "button", onclick: press, ...properties }, words);

  let asked = 0;

  /** Asks the program; fails with a plain sentence when it cannot run. */
  function ask(calculator, call, request) {
    // Each question is of a kind of its own, so that none overtakes another.
    return calculator.call("machine " + ++asked, "machine", call, JSON.stringify(request));
  }

  const sentence = (problem) => (problem.line ? `line ${problem.line}, column ${problem.col}: ` : "") + (problem.label ? problem.label + ": " : "") + problem.message;

  /** A labelled box or list; its value is read from .value. */
  function labelled(words, box, help) {
    box.id = "machine-" + words.toLowerCase().replace(/[^a-z]+/g, "-");
    return make("div", { className: "field" }, make("label", { htmlFor: box.id }, words), box, help ? make("p", { className: "help" }, help) : null);
  }

  /** Boxes for an entry's particulars; asks names the further ones. */
  function particulars(entry, asks) {
    const day = make("input", { type: "date", value: entry.day || today() });
    const name = make("input", { type: "text", value: entry.name || "", maxLength: 80 });
    const head = make("select", {}, ...[["", "does not matter"], ["as found", "as found, before it was set"], ["as left", "as left, after it was set"]].map(([value, words]) => new Option(words, value)));
    head.value = entry.head || "";
    const travel = make("input", { type: "text", value: entry.travel || "" });
    const boxes = make("div", { className: "fields" }, labelled("Day", day), labelled("Name", name, "Optional: what you would look for."));
    if (asks.includes("head") || entry.head) boxes.append(labelled("Head", head, "How it stood when this was read."));
    if (asks.includes("travel") || entry.travel) boxes.append(labelled("Table at X", travel, "With its unit, plus with the table to the right: 150 mm. Empty: in the middle."));
    return { boxes, values: () => ({ day: day.value, name: name.value, head: head.value, travel: travel.value.trim() }) };
  }

  // --- At a lesson's form --------------------------------------------------------

  /** The buttons that take readings from the machine and put them into it. */
  class Tools {
    constructor(readings) {
      this.readings = readings;
      this.lesson = readings.form.dataset.lesson;
      this.panel = readings.form.nextElementSibling;
      this.buttons = [...readings.form.querySelectorAll("[data-machine]")];
      for (const tool of this.buttons) tool.addEventListener("click", () => this.toggle(tool));
      this.panel.addEventListener("keydown", (event) => { if (event.key === "Escape") this.close(); });
    }

    toggle(tool) {
      const open = tool.getAttribute("aria-expanded") === "true";
      this.close();
      if (open) return;
      this.opened = tool;
      tool.setAttribute("aria-expanded", "true");
      this.panel.hidden = false;
      this.say(["Looking into your machine…"]);
      this[tool.dataset.machine]().catch((reason) => this.say(["Your machine cannot be asked here: " + reason.message + "."]));
    }

    close() {
      for (const tool of this.buttons) tool.setAttribute("aria-expanded", "false");
      this.panel.hidden = true;
      this.panel.replaceChildren();
      if (this.opened) this.opened.focus();
      this.opened = null;
    }

    ask(call, request) { return ask(this.readings.calculator, call, { file: kept() || "", today: today(), lesson: this.lesson, ...request }); }

    /** Shows sentences, and below them what else is given. */
    say(sentences, ...more) {
      const said = make("div", { role: "status" }, ...sentences.map((text) => make("p", {}, text)));
      this.panel.replaceChildren(said, ...more);
    }

    failed(problems, ...more) { this.say(["Your machine’s file cannot be used:", ...problems.map(sentence)], ...more, this.leave()); }

    leave() { return button("Close", () => this.close()); }

    page(words) { return make("p", {}, make("a", { href: "../machine/index.html" }, words)); }

    async take() {
      const found = await this.ask("choices", {});
      if (found.problems.length) return this.failed(found.problems);
      const list = make("ul", { className: "choices" });
      for (const { key, day, title } of found.choices || []) {
        list.append(make("li", {}, button(title ? `${day}: ${title}` : day, () => this.taken("take", { key }, "Taken from your machine: "))));
      }
      list.append(make("li", {}, button("Only its sizes and gauges, over what is typed", () => this.taken("share", { document: this.readings.text() }, "Filled in from your machine: "))));
      const words = list.children.length > 1 ? "What do you take? It stands in place of what is typed." : "Your machine holds no readings for this lesson yet.";
      this.say([words], list, this.page("Your machine"), this.leave());
      list.querySelector("button").focus();
    }

    async taken(call, request, words) {
      const answer = await this.ask(call, request);
      if (answer.problems.length) return this.failed(answer.problems);
      const used = answer.used || [];
      const left = answer.left || [];
      if (call === "share" && used.length === 0) return this.say(["Your machine’s records say nothing that this lesson asks for."], this.leave());
      if (!(await this.readings.take(answer.document, "What your machine holds"))) return this.say(["It was not loaded; the form above says why."], this.leave());
      const lines = (texts) => make("ul", {}, ...texts.map((text) => make("li", {}, text)));
      this.say([used.length === 1 ? words + used[0] + "." : words], used.length > 1 ? lines(used) : "", ...(left.length ? [make("p", {}, "Left out:"), lines(left)] : []), this.leave());
    }

    async put() {
      const found = await this.ask("choices", {});
      if (found.problems.length) return this.failed(found.problems);
      const { boxes, values } = particulars({}, found.asks || []);
      const form = make("form", { onsubmit: (event) => { event.preventDefault(); this.putIn(values()); } }, boxes,
        make("div", { className: "actions" }, make("button", { type: "submit" }, "Put in"), button("Close", () => this.close())), make("ul", { className: "problem problems", hidden: true }));
      this.say(["The readings that are typed now go into your machine’s file, as they are typed."], form);
      form.querySelector("input").focus();
    }

    async putIn(values) {
      const answer = await this.ask("put", { document: this.readings.text(), ...values });
      const list = this.panel.querySelector(".problems");
      if (answer.problems.length) {
        list.replaceChildren(...answer.problems.map((problem) => make("li", {}, sentence(problem))));
        list.hidden = false;
        return;
      }
      const why = keep(answer.file);
      this.say(why ? ["It was not put in. " + why.replace("your machine to", "these readings to")] : [answer.said], this.page("Your machine"), this.leave());
      this.panel.querySelector("a, button").focus();
    }
  }

  for (const readings of window.thouspan.forms) {
    if (readings.form.querySelector(".machine-tools")) new Tools(readings);
  }

  // --- The page of the machine ---------------------------------------------------

  /** The form of a record: a lesson's form in all but what it computes. */
  class RecordForm extends window.thouspan.Readings {
    restore() {}
    compute() {}
    offer() {}

    /** Puts the record in, or says what is wrong at its fields. */
    async put() {
      const problems = await this.send(this.text(), this.form.elements.day.value);
      if (problems.length === 0) return;
      this.mark(problems);
      this.output.textContent = "Nothing was put in yet.";
    }

    leave() { this.done(); }
  }

  class Machine {
    constructor(app) {
      this.app = app;
      this.calculator = new Calculator(meta("live"));
      this.text = kept() || "";
      this.before = []; // the texts before the last changes, the newest last
      this.state = app.querySelector("output");
      this.list = app.querySelector(".machine-said");
      for (const tool of app.querySelectorAll("[data-call]")) tool.addEventListener("click", () => this[tool.dataset.call](tool));
      for (const box of app.querySelectorAll("input[type=file]")) box.addEventListener("change", () => this.read(box));
      app.querySelector("#card-day").value = today();
      addEventListener("storage", (event) => { if (event.key === storageKey) this.turn(event.newValue || "", "Changed in another window."); });
      app.hidden = false;
      this.turn(this.text, "");
    }

    /** Asks the program, and says that it works when that takes long. */
    async ask(call, request = {}) {
      const slowly = setTimeout(() => this.say(this.calculator.module ? "Working…" : "Getting ready…"), 150);
      try {
        return await ask(this.calculator, call, { file: this.text, today: today(), ...request });
      } catch (reason) {
        return { problems: [{ message: "the program cannot run here: " + reason.message }] };
      } finally {
        clearTimeout(slowly);
      }
    }

    say(words, lines = []) {
      this.state.textContent = words;
      this.list.replaceChildren(...lines.map((line) => make("li", {}, line)));
      this.list.hidden = lines.length === 0;
    }

    fail(words, problems) { this.say(words, problems.map(sentence)); }

    /** Shows a text as the file that is kept, without keeping it anew. */
    async turn(text, words) {
      this.text = text;
      const answer = await this.ask("show");
      if (answer.problems.length) {
        this.fail("What this browser keeps of your machine cannot be read. Save it to a file before you put anything else in its place.", answer.problems);
        this.broken = true;
        return;
      }
      this.show(answer);
      this.say(words);
    }

    /** Takes an answer's file as the new one: keeps it, shows it, offers the way back. */
    accept(answer, words, lines = []) {
      this.before.push(this.text);
      if (this.before.length > mostSteps) this.before.shift();
      this.take(answer, words, lines);
    }

    /** Keeps and shows an answer's file. */
    take(answer, words, lines) {
      this.text = (answer.entries || []).length ? answer.file : "";
      this.broken = false;
      const why = keep(this.text);
      this.show(answer);
      this.say([words, why].filter(Boolean).join(" "), lines);
    }

    async undo() {
      if (this.before.length === 0) return;
      const answer = await ask(this.calculator, "show", { file: this.before.at(-1) });
      if (answer.problems.length) return this.fail("The way back is closed:", answer.problems);
      this.before.pop();
      const left = this.before.length;
      this.take(answer, left ? `Undone. Steps before it that can be undone: ${left}.` : "Undone.", []);
    }

    save() { saveFile(this.text || '{\n  "machine": 1,\n  "entries": []\n}\n', `machine-${today()}.json`, "application/json"); }
    load() { this.app.querySelector("#load-file").click(); }
    merge() { this.app.querySelector("#merge-file").click(); }

    async shop() {
      const answer = await this.ask("shop", { file: "" });
      if (answer.problems.length) return this.fail("The action shop’s file cannot be made:", answer.problems);
      this.accept(answer, "This is the action shop’s machine. Change it into yours, or delete it.");
    }

    async clear() {
      const answer = await this.ask("show", { file: "" });
      if (!answer.problems.length) this.accept(answer, "Everything is deleted from this browser.");
    }

    /** Loads or merges the file that was chosen. */
    async read(box) {
      const file = box.files[0];
      box.value = "";
      if (!file) return;
      if (file.size > mostBytes) return this.say(`${file.name} was not read: it has ${file.size} bytes; the most is ${mostBytes}.`);
      const merging = box.id === "merge-file";
      if (merging && this.broken) return this.say("What this browser keeps cannot be read, so nothing can be merged with it.");
      const request = { text: await file.text() };
      if (!merging) request.file = "";
      const answer = await this.ask(merging ? "merge" : "open", request);
      if (answer.problems.length) return this.fail(`${file.name} was not ${merging ? "merged" : "loaded"}.`, answer.problems);
      if (!merging) return this.accept(answer, `${file.name} is loaded: ${answer.entries.length} entries.`);
      const { added, same, conflicts } = answer.merged;
      const lines = [...added.map((line) => "Added: " + line), ...conflicts.map((line) => "Held differently in both files, and kept twice: " + line)];
      this.accept(answer, `${file.name} is merged: ${added.length} added, ${same} the same in both, ${conflicts.length} held differently.`, lines);
    }

    // What is listed.

    show({ entries = [] }) {
      this.entries = entries;
      this.closeForm();
      for (const part of this.app.querySelectorAll("[data-group]")) {
        const mine = entries.filter((entry) => entry.group === part.dataset.group);
        part.querySelector(".entries").replaceChildren(...this.lists(mine, part.dataset.group === "readings"));
        if (part.dataset.group === "other") part.hidden = mine.length === 0;
      }
      for (const place of this.app.querySelectorAll("[data-when]")) place.hidden = (entries.length === 0) !== (place.dataset.when === "empty");
      this.app.querySelector("[data-call=undo]").hidden = this.before.length === 0;
      this.app.querySelector(".card").hidden = true;
    }

    /** Entries as lists, by day where they are many. */
    lists(entries, byDay) {
      if (entries.length === 0) return [make("p", { className: "hint" }, "Nothing yet.")];
      const days = byDay ? [...new Set(entries.map((entry) => entry.day))] : [""];
      return days.flatMap((day) => {
        const list = make("ul", { className: "entry-list" }, ...entries.filter((entry) => !day || entry.day === day).map((entry) => this.item(entry, !byDay)));
        return day ? [make("h3", {}, day), list] : [list];
      });
    }

    item(entry, withDay) {
      const label = (entry.name || entry.title) + ", " + entry.day;
      const title = entry.kind === "lesson" ? make("a", { href: `../${entry.of}/index.html` }, entry.title) : make("span", {}, entry.title);
      const more = [withDay ? entry.day : "", entry.name, entry.head && "head " + entry.head, entry.travel && "table at " + entry.travel].filter(Boolean).join(", ");
      const row = make("li", { className: "entry-row" },
        make("div", { className: "entry-words" }, title, more ? make("span", { className: "entry-more" }, more) : null, entry.says ? make("span", { className: "entry-says" }, entry.says) : null,
          ...entry.problems.map((line) => make("span", { className: "problem" }, line)),
          entry.versions > 1 ? make("span", { className: "problem" }, `One of ${entry.versions} versions, from two files.`) : null),
        make("div", { className: "entry-tools" },
          entry.versions > 1 ? button("Keep this one", () => this.carryOut("keep", entry), { ariaLabel: "Keep this version of " + label }) : null,
          button("Change", () => this.change(entry, row), { ariaLabel: "Change " + label }),
          button("Delete", () => this.carryOut("remove", entry), { ariaLabel: "Delete " + label })));
      row.dataset.key = entry.key;
      return row;
    }

    async carryOut(call, entry, values = {}) {
      const answer = await this.ask(call, { key: entry.key, ...values });
      if (answer.problems.length) {
        this.fail("Nothing was changed.", answer.problems);
        return answer.problems;
      }
      this.accept(answer, answer.said);
      this.app.querySelector("[data-call=undo]").focus();
      return [];
    }

    change(entry, row) {
      if (entry.kind === "record") return this.openForm(entry.of, row, entry);
      this.closeForm();
      const { boxes, values } = particulars(entry, []);
      this.form = make("form", { className: "machine-panel", onsubmit: (event) => { event.preventDefault(); this.carryOut("change", entry, values()); } }, boxes,
        make("div", { className: "actions" }, make("button", { type: "submit" }, "Change it"), button("Leave it", () => this.closeForm(true))));
      this.opener = row.querySelector(".entry-tools button");
      row.append(this.form);
      this.form.querySelector("input").focus();
    }

    /** Opens the form of a new record, or of one that is changed. */
    open(tool) { this.openForm(tool.dataset.record, tool.closest("[data-group]"), null, tool); }

    openForm(name, place, entry, opener) {
      this.closeForm();
      const template = this.app.querySelector(`template[data-record="${name}"]`);
      this.form = template.content.firstElementChild.cloneNode(true);
      place.append(this.form);
      const form = new RecordForm(this.form);
      form.calculator = this.calculator;
      form.done = () => this.closeForm(true);
      form.send = async (document, day) => {
        const answer = await this.ask("put", { document, day, key: entry ? entry.key : "", name: entry ? entry.name : "", head: "", travel: "" });
        if (answer.problems.length) return answer.problems;
        this.accept(answer, answer.said);
        this.app.querySelector("[data-call=undo]").focus();
        return [];
      };
      this.form.elements.day.value = entry ? entry.day : today();
      if (entry) window.thouspan.fillForm(this.form, window.thouspan.parseDocument(entry.document), form.demoDocument);
      this.opener = opener || place.querySelector(".entry-tools button");
      this.form.elements.day.focus();
    }

    closeForm(back) {
      if (this.form) this.form.remove();
      this.form = null;
      if (back && this.opener) this.opener.focus();
    }

    // The card.

    async card() {
      const answer = await this.ask("card", { today: this.app.querySelector("#card-day").value });
      if (answer.problems.length) {
        this.fail("The card cannot be written.", answer.problems);
        return false;
      }
      const { title, read, items } = answer.card;
      const card = this.app.querySelector(".card");
      const inside = make("div", { className: "card-items" });
      inside.innerHTML = items; // made and escaped by the program
      card.replaceChildren(make("h3", {}, title), make("p", { className: "card-read" }, read), inside,
        make("p", { className: "card-foot" }, "Isolate the machine before a hand or a gauge goes near the spindle. The rules of your own shop, local codes and licensed practice come first."));
      card.hidden = false;
      this.say("The card is written, below.");
      return true;
    }

    async print() {
      if (await this.card()) window.print();
    }
  }

  const app = document.querySelector(".machine-app");
  if (app) window.thouspan.machine = new Machine(app);
})();
