// A table's numbers as a file for a spreadsheet, as they stand on the page: in
// the units chosen, from the readings that are answered.
"use strict";

(() => {
  const places = ".item.table, details.data:not([hidden])";
  const lesson = document.querySelector("form.readings")?.dataset.lesson || "thouspan";

  /** A text as spreadsheets read it: numbers as numbers, and nothing as a formula. */
  function plain(text) {
    const trimmed = text.replace(/[\s\u00a0\u2009\u202f]+/g, " ").trim();
    const number = trimmed.replace(/\u2212/g, "-").replace(/(\d) (?=\d{3}\b)/g, "$1");
    if (/^[-+]?\d+(\.\d+)?$/.test(number)) return number;
    return /^[=+@\-\t]/.test(trimmed) ? "'" + trimmed : trimmed;
  }

  /** A cell in the units chosen: what it says, and the standard uncertainty beside it. */
  function read(cell) {
    const hidden = document.documentElement.dataset.units === "inch" ? ".metric" : ".inch";
    const copy = cell.cloneNode(true);
    for (const other of copy.querySelectorAll(hidden + ", .visually-hidden")) other.remove();
    const u = copy.querySelector(".u");
    if (u) u.remove();
    const unit = copy.querySelector(".unit");
    if (unit) unit.textContent = ` (${unit.textContent})`;
    return { text: plain(copy.textContent), u: u ? plain(u.textContent.replace(/^\(u\s*|\)$/g, "")) : "" };
  }

  const quoted = (text) => (/[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

  /** A table's lines; a column with uncertainties is followed by one of them. */
  function lines(table) {
    const rows = [...table.rows].map((row) => [...row.cells].map(read));
    const sure = rows[0].map((head, column) => rows.every((row) => !row[column]?.u));
    return rows.map((row, r) => row.flatMap(({ text, u }, column) => {
      if (sure[column]) return [text];
      return [text, r === 0 ? "u of " + text : u];
    }).map(quoted).join(","));
  }

  function save(place) {
    const table = place.querySelector("table");
    const name = place.closest("[data-item]").dataset.item;
    // The mark at the beginning tells spreadsheets that the text is UTF-8.
    window.thouspan.saveFile("\ufeff" + lines(table).join("\r\n") + "\r\n", `${lesson}-${name}.csv`, "text/csv");
  }

  /** Gives each table a button, also those that an answer has just brought. */
  function dress() {
    for (const place of document.querySelectorAll(places)) {
      const table = place.querySelector("table");
      if (!table || place.querySelector(".csv")) continue;
      const button = document.createElement("button");
      const title = table.closest("[aria-label]")?.getAttribute("aria-label") || "";
      button.type = "button";
      button.className = "csv";
      button.textContent = "Save as CSV";
      button.setAttribute("aria-label", `Save as CSV: ${title}`);
      button.addEventListener("click", () => save(place));
      table.closest(".scroll").after(button);
    }
  }

  dress();
  document.addEventListener("figures", () => setTimeout(dress));
})();
