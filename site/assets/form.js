// The form of readings: from what is typed to a document, from the document to
// the answers on the page, and back from a file or an earlier visit.
"use strict";

(() => {
  const { recall, remember, meta, saveFile, Calculator } = window.thouspan;
  // Its data-readings says whose answers it shows: "demo", "yours", "stale"
  // (those before a wrong entry) or "pending".
  const page = document.documentElement;

  // --- The form's values as a document ---------------------------------------

  /** The box that holds a single field's value. */
  const boxOf = (field) => field.querySelector(".entry > input, .entry > select:not(.unit)");
  /** The button that picks a field's file, or null. */
  const pickerOf = (field) => field.querySelector(".entry input[type=file]");
  const cellsOf = (row) => [...row.querySelectorAll("td:not(.tools) > :is(input, select)")];
  const headsOf = (field) => [...field.querySelectorAll("thead th[data-column]")];
  const rowsOf = (field) => [...field.querySelectorAll("tbody > tr")];

  /** Whether anything is typed in a row of readings. */
  function isFilled(row) {
    const cells = cellsOf(row);
    const boxes = cells.filter((cell) => cell.matches("input"));
    return boxes.length === 0 || boxes.some((box) => box.value.trim() !== "");
  }

  /** The chosen unit's symbol beside a box or in a column's head, or "". */
  function unitOf(place) {
    const unit = place.querySelector(".unit");
    return unit ? (unit.matches("select") ? unit.value : unit.dataset.unit) : "";
  }

  /** Every spelling of the units that a place offers, with the symbol it means. */
  function spellings(place) {
    const offered = [...place.querySelectorAll(".unit option, span.unit")];
    return offered.flatMap((unit) => {
      const symbol = unit.matches("option") ? unit.value : unit.dataset.unit;
      const also = unit.dataset.also ? unit.dataset.also.split("|") : [];
      return [symbol, ...also].filter(Boolean).map((spelling) => ({ spelling, symbol }));
    });
  }

  /** Splits "110 mm" into number and unit symbol; the symbol is "" if none fits. */
  function splitUnit(text, place) {
    const trimmed = text.trim();
    let best = { spelling: "", symbol: "" };
    for (const candidate of spellings(place)) {
      if (trimmed.endsWith(candidate.spelling) && candidate.spelling.length > best.spelling.length) best = candidate;
    }
    return { number: trimmed.slice(0, trimmed.length - best.spelling.length).trim(), symbol: best.symbol };
  }

  function collectOne(field) {
    const text = boxOf(field).value;
    const unit = unitOf(field);
    if (!unit || text.trim() === "" || splitUnit(text, field).symbol) return text;
    return text.trim() + " " + unit;
  }

  function collectRows(field) {
    const units = {};
    for (const head of headsOf(field)) {
      if (unitOf(head)) units[head.dataset.column] = unitOf(head);
    }
    return { units, rows: rowsOf(field).filter(isFilled).map((row) => cellsOf(row).map((cell) => cell.value)) };
  }

  /** The form's values, as typed, as an input document. */
  function collect(form) {
    const inputs = {};
    for (const field of form.querySelectorAll(".field")) {
      inputs[field.dataset.field] = field.dataset.kind === "rows" ? collectRows(field) : collectOne(field);
    }
    return { lesson: form.dataset.lesson, format: Number(form.dataset.format), inputs };
  }

  /** The document as text for a person to edit: one row of readings a line. */
  function layOut(document) {
    const value = (input) => {
      if (typeof input === "string") return JSON.stringify(input);
      const rows = input.rows.map((row) => "\n        " + JSON.stringify(row));
      return `{\n      "units": ${JSON.stringify(input.units)},\n      "rows": [${rows}\n      ]\n    }`;
    };
    const inputs = Object.entries(document.inputs).map(([name, input]) => `\n    ${JSON.stringify(name)}: ${value(input)}`);
    return `{\n  "lesson": ${JSON.stringify(document.lesson)},\n  "format": ${document.format},\n  "inputs": {${inputs}\n  }\n}\n`;
  }

  // --- A document into the form ----------------------------------------------

  /** Reads JSON, numbers as they are written ("2.0"); null if it is none. */
  function parse(text) {
    const asWritten = (key, value, place) => (typeof value === "number" && place && place.source ? place.source : value);
    try { return JSON.parse(text, asWritten); } catch { return null; }
  }

  const isScalar = (value) => value === null || typeof value === "string" || typeof value === "number";
  const asText = (value) => (value === null || value === undefined ? "" : String(value));

  /** Puts a text into a box or list, even one that the list does not offer. */
  function put(box, text) {
    box.value = text;
    if (box.value === text) return;
    if (box.matches("select")) box.append(new Option(text, text));
    else box.type = "text"; // a date that is none, kept as it was written
    box.value = text;
  }

  /** Plans how to show one value; null if the form cannot show it faithfully. */
  function planOne(field, value) {
    if (!isScalar(value)) return null;
    const text = asText(value);
    const { number, symbol } = splitUnit(text, field);
    if (field.dataset.kind === "file") return () => hold(field, text);
    if (field.dataset.kind !== "measure" || text.trim() === "") return () => put(boxOf(field), text);
    if (!symbol) return null; // a number without its unit: the program refuses it too
    return () => {
      put(boxOf(field), number);
      const unit = field.querySelector("select.unit");
      if (unit) unit.value = symbol;
    };
  }

  // --- Files ---------------------------------------------------------------------

  const fileMark = ";base64,"; // between a file's name and its bytes, as the program reads it

  /** Holds a file as text, or none, and says which. */
  function hold(field, text) {
    boxOf(field).value = text;
    const [name, code] = text.split(fileMark);
    const bytes = code ? Math.floor(code.length * 3 / 4) - (code.endsWith("==") ? 2 : code.endsWith("=") ? 1 : 0) : 0;
    field.querySelector(".held").textContent = text === "" ? "No file." : `${name}, ${bytes} bytes.`;
    field.querySelector("[data-do=detach]").hidden = text === "";
  }

  /** A file as text: its name and its bytes in base64. */
  async function asHeld(file) {
    const url = await new Promise((done, failed) => {
      const reader = new FileReader();
      reader.onload = () => done(reader.result);
      reader.onerror = () => failed(reader.error);
      reader.readAsDataURL(file);
    });
    return file.name.replaceAll(";", ",") + fileMark + url.slice(url.indexOf(",") + 1);
  }

  function planRows(field, value) {
    const heads = headsOf(field);
    if (value === null || typeof value !== "object" || !Array.isArray(value.rows)) return null;
    const fits = (row) => Array.isArray(row) && row.length <= heads.length && row.every(isScalar);
    if (!value.rows.every(fits)) return null;
    const rows = value.rows.map((row) => row.map(asText)).filter((row) => row.some((text) => text.trim() !== ""));
    if (rows.length > Number(field.dataset.max)) return null;
    const units = [];
    for (const [column, name] of Object.entries(value.units || {})) {
      const head = heads.find((candidate) => candidate.dataset.column === column);
      const unit = head && spellings(head).find((known) => known.spelling === name);
      if (!unit) return null;
      units.push([head.querySelector("select.unit"), unit.symbol]);
    }
    return () => {
      for (const select of field.querySelectorAll("thead select.unit")) select.selectedIndex = 0;
      for (const [select, symbol] of units) if (select) select.value = symbol;
      field.querySelector("tbody").replaceChildren();
      for (const row of rows.length ? rows : [[]]) {
        const cells = cellsOf(addRow(field));
        row.forEach((text, i) => put(cells[i], text));
      }
      renumber(field);
    };
  }

  /**
   * Shows a document's inputs in the form; what it leaves out comes from the
   * demo. Returns false, and changes nothing, if the form cannot show it.
   */
  function fill(form, document, demo) {
    const given = document && (document.inputs ?? {});
    if (given === null || typeof given !== "object") return false;
    const plans = [...form.querySelectorAll(".field")].map((field) => {
      const name = field.dataset.field;
      const value = Object.hasOwn(given, name) ? given[name] : demo.inputs[name];
      return field.dataset.kind === "rows" ? planRows(field, value) : planOne(field, value);
    });
    if (plans.includes(null)) return false;
    for (const carryOut of plans) carryOut();
    return true;
  }

  // --- Rows of readings --------------------------------------------------------

  /** Appends an empty row and returns it. */
  function addRow(field) {
    const row = field.querySelector("template.row").content.firstElementChild.cloneNode(true);
    field.querySelector("tbody").append(row);
    wakeInside(row);
    return row;
  }

  /** Numbers the filled rows as the program counts them: without the empty. */
  function renumber(field) {
    const heads = headsOf(field);
    let number = 0;
    for (const row of rowsOf(field)) {
      const place = isFilled(row) ? `row ${++number}` : "empty row";
      row.firstElementChild.textContent = place === "empty row" ? "–" : String(number);
      cellsOf(row).forEach((cell, i) => cell.setAttribute("aria-label", `${heads[i].dataset.label}, ${place}`));
      row.querySelector("[data-do=remove]").setAttribute("aria-label", "Remove " + place);
    }
    field.querySelector("[data-do=add]").disabled = rowsOf(field).length >= Number(field.dataset.max);
  }

  function removeRow(field, row) {
    const next = row.nextElementSibling || row.previousElementSibling;
    row.remove();
    (next || addRow(field)).querySelector("[data-do=remove]").focus();
    renumber(field);
  }

  /** Moves to the same column of the next (or previous) row; adds one below. */
  function moveInColumn(field, cell, step) {
    const row = cell.closest("tr");
    const column = cellsOf(row).indexOf(cell);
    let target = step > 0 ? row.nextElementSibling : row.previousElementSibling;
    if (!target && step > 0 && isFilled(row) && rowsOf(field).length < Number(field.dataset.max)) {
      target = addRow(field);
      renumber(field);
    }
    if (!target) return;
    const next = cellsOf(target)[column];
    next.focus();
    if (next.select) next.select();
  }

  /**
   * Spreads cells copied from a spreadsheet from the given cell on. Returns how
   * many values found no place.
   */
  function spread(field, cell, text) {
    const lines = text.replace(/\r\n?/g, "\n").replace(/\n+$/, "").split("\n").map((line) => line.split("\t"));
    let row = cell.closest("tr");
    const column = cellsOf(row).indexOf(cell);
    let left = 0;
    for (const line of lines) {
      if (!row && rowsOf(field).length < Number(field.dataset.max)) row = addRow(field);
      const cells = row ? cellsOf(row).slice(column) : [];
      line.forEach((value, i) => {
        if (cells[i]) put(cells[i], value.trim().replace(/^"(.*)"$/, "$1"));
        else if (value.trim() !== "") left++;
      });
      row = row && row.nextElementSibling;
    }
    renumber(field);
    return left;
  }

  // --- Waking the form -----------------------------------------------------------

  const isApple = /iP(hone|ad|od)/.test(navigator.userAgent) || (/Mac/.test(navigator.userAgent) && navigator.maxTouchPoints > 1);

  /** Makes boxes, lists and tools inside a place usable. */
  function wakeInside(place) {
    for (const box of place.querySelectorAll("input[readonly]")) {
      box.readOnly = false;
      // These telephones' number keys have no minus sign.
      if (isApple && box.hasAttribute("data-signed")) box.inputMode = "text";
    }
    for (const list of place.querySelectorAll("select")) list.disabled = false;
    for (const tool of place.querySelectorAll(".tools, .actions, .awake")) tool.hidden = false;
    for (const note of place.querySelectorAll(".asleep")) note.hidden = true;
  }

  const words = {
    demo: "Computed from the demo’s readings.",
    yours: "Computed from your readings.",
    kept: " This browser keeps them for your next visit.",
    notKept: " This browser does not keep them: save them to a file.",
    lastGood: { demo: "The answers are still the demo’s. ", yours: "The answers are still those of your last good readings. " },
    starting: "Getting ready to compute…",
    working: "Computing…",
    stopped: "Stopped. ",
    failed: "Your readings cannot be computed here: ",
  };
  const mostBytes = 3 << 20; // of a file: the program's own limit
  const pause = 10; // ms without a keystroke before computing
  const quick = 120; // ms: an answer that took longer is asked for only once, with every chart
  const rest = 400; // ms without an answer before the charts out of sight are drawn too
  const patience = 700; // ms without a keystroke before a fault is named
  const slow = 150; // ms before progress is shown

  /** A problem as a sentence that says where it is. */
  const sentence = (problem) => (problem.label ? problem.label + ": " : "") + problem.message;

  /** The form of one lesson, awake. */
  class Readings {
    constructor(form) {
      this.form = form;
      this.output = form.querySelector(".state output");
      this.key = "thouspan:readings:" + form.dataset.lesson;
      this.shown = "demo"; // whose answers stand on the page: "demo" or "yours"
      this.lastKey = 0; // when the last keystroke came
      this.version = 0; // of what is typed
      this.mine = null; // the reader's document while the demo is looked at
      this.good = null; // the document whose answers stand on the page
      this.took = Infinity; // ms, the last answer
      form.reset(); // a browser may have kept what was typed before a reload
      wakeInside(form);
      for (const field of form.querySelectorAll(".rows")) renumber(field);
      this.demoDocument = collect(form);
      this.demoText = layOut(this.demoDocument);
      this.calculator = new Calculator(meta("live"));
      this.calculator.practice = { slug: form.dataset.lesson, text: this.demoText, charts: chartsDrawn(false) };
      this.notes = [...document.querySelectorAll(".part-answer > h2")].map((heading) => {
        const note = document.createElement("p");
        note.className = "hint whose";
        note.hidden = true;
        heading.after(note);
        return note;
      });
      page.dataset.readings = "demo";
      this.listen();
      this.restore();
    }

    listen() {
      const { form } = this;
      form.addEventListener("focusin", (event) => {
        if (event.target.closest(".field")) this.calculator.start().catch((reason) => this.fail(reason));
      });
      form.addEventListener("submit", (event) => event.preventDefault());
      form.addEventListener("input", (event) => { if (event.target.type !== "file") this.changed(event.target); });
      form.addEventListener("change", (event) => this.settled(event.target));
      form.addEventListener("keydown", (event) => this.press(event));
      form.addEventListener("paste", (event) => this.paste(event));
      form.addEventListener("click", (event) => {
        const button = event.target.closest("[data-do]");
        if (button) this[button.dataset.do](button);
      });
      document.addEventListener("lacking", () => this.drawRest(0));
    }

    /** Brings back the readings of an earlier visit. */
    restore() {
      const kept = recall(this.key);
      if (!kept) return;
      if (fill(this.form, parse(kept), this.demoDocument)) this.compute();
      else this.list(["The readings kept from an earlier visit do not fit this form any more and were left out."]);
    }

    // What the reader does.

    changed(target) {
      const field = target.closest(".rows");
      if (field) renumber(field);
      this.lastKey = performance.now();
      this.version++;
      this.offer(null);
      page.dataset.readings = "pending";
      clearTimeout(this.pausing);
      this.pausing = setTimeout(() => this.compute(), pause);
    }

    /** A box was left, or a unit or a file was chosen. */
    settled(target) {
      const field = target.closest(".field");
      if (target.type === "file") {
        const file = target.files[0];
        if (file && field) this.attach(field, file);
        else if (file) this.read(file);
        target.value = "";
        return;
      }
      const unit = field && target.matches("input") && field.querySelector(".entry > select.unit");
      const { number, symbol } = unit ? splitUnit(target.value, field) : {};
      if (symbol) [target.value, unit.value] = [number, symbol]; // "4 in" typed whole
      this.lastKey = 0;
      if (this.complain) this.complain();
    }

    /** Enter and the arrows move within a column. */
    press(event) {
      const cell = event.target;
      const field = cell.closest(".rows");
      if (!field || !cell.matches("tbody input") || event.isComposing) return;
      const down = event.key === "ArrowDown" || (event.key === "Enter" && !event.shiftKey);
      const up = event.key === "ArrowUp" || (event.key === "Enter" && event.shiftKey);
      if ((!down && !up) || (cell.type === "date" && event.key !== "Enter")) return;
      event.preventDefault();
      moveInColumn(field, cell, down ? 1 : -1);
    }

    paste(event) {
      const cell = event.target.closest(".rows tbody :is(input, select)");
      const text = event.clipboardData ? event.clipboardData.getData("text/plain") : "";
      if (!cell || !/[\t\n\r]/.test(text.trim())) return;
      event.preventDefault();
      const left = spread(cell.closest(".rows"), cell, text);
      this.changed(cell);
      this.lastKey = 0;
      this.list(left ? [`${left} of the pasted values found no place in the table.`] : []);
    }

    add(button) {
      const field = button.closest(".rows");
      const row = addRow(field);
      renumber(field);
      cellsOf(row)[0].focus();
    }

    remove(button) {
      const field = button.closest(".rows");
      removeRow(field, button.closest("tr"));
      this.changed(field);
    }

    save() { saveFile(layOut(collect(this.form)), this.form.dataset.lesson + "-readings.json", "application/json"); }

    load() { this.form.querySelector(".actions input[type=file]").click(); }

    /** Takes a file into a field, unless it is too large. */
    async attach(field, file) {
      const most = Number(pickerOf(field).dataset.most);
      const refused = file.size > most ? `has ${file.size} bytes; the most is ${most}`
        : file.size === 0 ? "is empty" : "";
      const problem = (message) => this.mark([{ field: field.dataset.field, message: `${file.name} was not taken: it ${message}.` }]);
      if (refused) return problem(refused);
      let text = "";
      try { text = await asHeld(file); } catch (reason) { return problem("cannot be read: " + reason.message); }
      hold(field, text);
      this.changed(field);
      this.lastKey = 0;
    }

    /** Leaves a field's file out. */
    detach(button) {
      const field = button.closest(".field");
      hold(field, "");
      pickerOf(field).focus();
      this.changed(field);
      this.lastKey = 0;
    }

    /** Shows the demo's readings, or those that the demo took the place of. */
    demo() {
      const mine = this.mine;
      const now = collect(this.form);
      fill(this.form, mine || this.demoDocument, this.demoDocument);
      this.offer(mine || layOut(now) === this.demoText ? null : now);
      this.lastKey = 0;
      this.compute();
    }

    /** Offers the way back to the reader's document, or to the demo. */
    offer(mine) {
      this.mine = mine;
      this.form.querySelector("[data-do=demo]").textContent = mine ? "Back to my readings" : "Back to the demo";
    }

    cancel() { this.calculator.stop(null); }

    /** Loads a file, if the program and the form can take it as it is. */
    async read(file) {
      if (file.size > mostBytes) {
        this.list([`${file.name} was not loaded: it has ${file.size} bytes; the most is ${mostBytes}.`]);
        return;
      }
      await this.take(await file.text(), file.name);
    }

    /** Shows a document, if the program and the form can take it as it is; says whether. */
    async take(text, name) {
      const answer = await this.ask(text);
      if (!answer) return false;
      const known = parse(text);
      if (answer.problems.some((problem) => !problem.field) || !fill(this.form, known, this.demoDocument)) {
        const placed = (problem) => (problem.line ? `line ${problem.line}, column ${problem.col}: ` : "") + sentence(problem);
        this.list([`${name} was not loaded.`, ...answer.problems.map(placed)]);
        return false;
      }
      this.offer(null);
      this.lastKey = 0;
      this.compute();
      return true;
    }

    /** What is typed, as a document. */
    text() { return layOut(collect(this.form)); }

    // What the page answers.

    async compute() {
      const version = ++this.version;
      clearTimeout(this.pausing);
      page.dataset.readings = "pending";
      const text = layOut(collect(this.form));
      const whose = text === this.demoText ? "demo" : "yours";
      this.kept = remember(this.key, whose === "demo" ? null : text);
      const answer = await this.ask(text);
      if (!answer || version !== this.version) return; // what is typed has changed since
      clearTimeout(this.complaining);
      this.complain = null;
      if (answer.problems.length > 0) {
        this.complain = () => this.mark(answer.problems);
        this.complaining = setTimeout(this.complain, Math.max(0, this.lastKey + patience - performance.now()));
        return;
      }
      this.clear();
      this.shown = whose;
      this.good = text;
      showItems(answer.items);
      this.drawRest(rest);
      this.say(whose, words[whose] + (whose === "demo" ? "" : this.kept ? words.kept : words.notKept));
    }

    /** Fetches, after a rest, what the charts lack to be drawn by: those out of sight, or other units. */
    drawRest(after) {
      clearTimeout(this.resting);
      this.resting = setTimeout(async () => {
        if (!chartsLack()) return;
        const version = this.version;
        const answer = await this.ask(this.good ?? this.demoText, true);
        if (answer && !answer.problems.length && version === this.version) showItems(answer.items);
      }, after);
    }

    /**
     * Asks the program; for every chart, or for those near what is seen. Null
     * when there is no answer: it failed, or a newer question took over.
     */
    async ask(text, everyChart = this.took > quick) {
      const began = performance.now();
      const turn = this.turn = (this.turn || 0) + 1;
      this.slowly = this.slowly || setTimeout(() => this.busy(true), slow);
      let answer = null;
      try {
        answer = await this.calculator.ask(this.form.dataset.lesson, text, page.dataset.units, chartsDrawn(!everyChart));
        this.took = performance.now() - began;
      } catch (reason) {
        this.fail(reason);
      }
      if (turn === this.turn) this.busy(false);
      return answer;
    }

    busy(on) {
      clearTimeout(this.slowly);
      if (!on) this.slowly = null;
      this.form.querySelector("progress").hidden = !on;
      this.form.querySelector("[data-do=cancel]").hidden = !on;
      if (on) {
        this.before = this.output.textContent;
        this.output.textContent = this.calculator.module ? words.working : words.starting;
      } else if (this.before) {
        this.output.textContent = this.before;
        this.before = "";
      }
    }

    /** Says whose answers the page shows. */
    say(state, text) {
      page.dataset.readings = state;
      if (this.output.textContent !== text) this.output.textContent = text;
      for (const note of this.notes) {
        note.textContent = text;
        note.hidden = state === "demo";
      }
    }

    fail(reason) {
      this.busy(false);
      this.say("stale", (reason ? words.failed + reason.message + ". " : words.stopped) + words.lastGood[this.shown]);
    }

    /** Lists sentences that belong to no field. */
    list(sentences) {
      const list = this.form.querySelector(".problems");
      list.replaceChildren(...sentences.map((text) => {
        const item = document.createElement("li");
        item.textContent = text;
        return item;
      }));
      list.hidden = sentences.length === 0;
    }

    /** Takes every mark of a problem off the form. */
    clear() {
      this.list([]);
      for (const box of this.form.querySelectorAll("[aria-invalid]")) {
        box.removeAttribute("aria-invalid");
        if (box.matches("tbody *, thead *")) box.removeAttribute("aria-describedby");
      }
      for (const note of this.form.querySelectorAll("table .problem")) note.remove();
      for (const note of this.form.querySelectorAll(".field > .problem")) {
        note.replaceChildren();
        note.hidden = true;
      }
    }

    /** Names each problem beside its field; the last good answers stay. */
    mark(problems) {
      clearTimeout(this.complaining);
      this.complain = null;
      this.clear();
      const general = [];
      for (const problem of problems) {
        const field = [...this.form.querySelectorAll(".field")].find((known) => known.dataset.field === problem.field);
        if (field) this.markField(field, problem);
        else general.push(sentence(problem));
      }
      this.list(general);
      const count = problems.length === 1 ? "One entry needs a look." : `${problems.length} entries need a look.`;
      this.say("stale", words.lastGood[this.shown] + count);
    }

    /** Names a problem beside its box: in the cell itself for a table. */
    markField(field, problem) {
      const isTable = field.dataset.kind === "rows";
      const box = isTable ? placeOf(field, problem) : pickerOf(field) || boxOf(field);
      const note = field.querySelector(":scope > .problem");
      const line = document.createElement(isTable && box ? "p" : "span");
      line.textContent = isTable && box ? problem.message : sentence(problem) + " ";
      if (isTable && box) {
        line.className = "problem";
        line.id = `${note.id}-${problem.row || 0}-${problem.column}`;
        box.after(line);
        box.setAttribute("aria-describedby", line.id);
      } else {
        note.append(line);
        note.hidden = false;
      }
      if (box) box.setAttribute("aria-invalid", "true");
    }
  }

  /** The cell, or the unit in a column's head, that a problem is about. */
  function placeOf(field, problem) {
    const column = headsOf(field).findIndex((head) => head.dataset.column === problem.column);
    if (column < 0) return null;
    if (!problem.row) return headsOf(field)[column].querySelector("select");
    const row = rowsOf(field).filter(isFilled)[problem.row - 1];
    return row ? cellsOf(row)[column] : null;
  }

  // --- The answers on the page ---------------------------------------------------

  const latest = new WeakMap(); // the inside that each element last got

  /** Puts new insides into the page's items; the reader's place stays. */
  function showItems(items) {
    const anchor = document.activeElement;
    const before = anchor.getBoundingClientRect().top;
    for (const element of document.querySelectorAll("[data-item]")) {
      const name = element.dataset.item;
      if (!Object.hasOwn(items, name) || element.matches(".chart")) continue;
      const inside = items[name][element.dataset.shape];
      if (latest.get(element) !== inside) replaceInside(element, inside);
      latest.set(element, inside);
    }
    document.dispatchEvent(new CustomEvent("figures", { detail: items }));
    if (!CSS.supports("overflow-anchor", "auto")) scrollBy(0, anchor.getBoundingClientRect().top - before);
  }

  /** Replaces what is in an element; what was folded open stays open, and the focus stays. */
  function replaceInside(element, inside) {
    const open = [...element.querySelectorAll("details")].map((fold) => fold.open);
    const stops = () => [...element.querySelectorAll("summary, [tabindex], a, button")];
    const focus = stops().indexOf(document.activeElement);
    element.innerHTML = inside;
    element.querySelectorAll("details").forEach((fold, i) => { fold.open = Boolean(open[i]); });
    if (focus >= 0 && stops()[focus]) stops()[focus].focus({ preventScroll: true });
  }

  window.thouspan.replaceInside = replaceInside;

  // What charts.js says, where it runs.
  const chartsDrawn = (near) => (window.thouspan.charts ? window.thouspan.charts(near) : "");
  const chartsLack = () => Boolean(window.thouspan.chartsLack && window.thouspan.chartsLack());

  // For the page of the reader's own machine, whose records have forms too.
  Object.assign(window.thouspan, { Readings, fillForm: fill, parseDocument: parse });
  window.thouspan.forms = [...document.querySelectorAll("form.readings")].map((form) => new Readings(form));
})();
