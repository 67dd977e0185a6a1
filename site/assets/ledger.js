// The ledger of checks: sorted by any column, filtered by lesson, source, how
// known, unit and words. Without it the whole table is there, lesson by lesson.
"use strict";

(() => {
  const table = document.querySelector("table.ledger-table");
  const place = document.querySelector(".ledger-filters");
  if (!table || !place) return;
  const body = table.tBodies[0];
  const rows = [...body.rows];
  const heads = [...table.tHead.rows[0].cells];
  const key = (row, column) => row.cells[column].dataset.key ?? row.cells[column].textContent.trim();

  /** Sorts by a column, or the other way about when it is sorted so already. */
  function sortBy(column) {
    const head = heads[column];
    const down = head.getAttribute("aria-sort") === "ascending";
    const numeric = head.classList.contains("num") || head.hasAttribute("data-number");
    for (const other of heads) other.removeAttribute("aria-sort");
    head.setAttribute("aria-sort", down ? "descending" : "ascending");
    const compare = numeric ? (a, b) => Number(key(a, column)) - Number(key(b, column)) : (a, b) => key(a, column).localeCompare(key(b, column), "en");
    rows.sort((a, b) => compare(a, b) * (down ? -1 : 1) || Number(a.dataset.order) - Number(b.dataset.order));
    body.append(...rows);
  }

  heads.forEach((head, column) => {
    const button = document.createElement("button");
    button.type = "button";
    button.append(...head.childNodes);
    head.append(button);
    button.addEventListener("click", () => sortBy(column));
  });
  heads[0].setAttribute("aria-sort", "none");

  const filters = [];
  const shown = document.createElement("p");
  shown.setAttribute("role", "status");

  /** Shows the rows that every filter lets through. */
  function filter() {
    let count = 0;
    for (const row of rows) {
      row.hidden = !filters.every((lets) => lets(row));
      if (!row.hidden) count++;
    }
    shown.textContent = count === rows.length ? `All ${count} checks.` : `${count} of ${rows.length} checks.`;
  }

  function labelled(label, control) {
    const line = document.createElement("label");
    line.append(label + " ", control);
    control.addEventListener("input", filter);
    place.append(line);
  }

  /** A choice among the values of a column. */
  function choice(label, read) {
    const select = document.createElement("select");
    select.append(new Option("all", ""));
    for (const value of new Set(rows.map(read))) select.append(new Option(value, value));
    filters.push((row) => !select.value || read(row) === select.value);
    labelled(label, select);
  }

  const text = (column) => (row) => row.cells[column].textContent.trim();
  choice("Lesson", text(0));
  choice("Source", (row) => row.cells[7].firstChild.textContent.trim());
  choice("How known", text(8));
  choice("Unit", (row) => text(6)(row) || "pure number");
  const words = document.createElement("input");
  words.type = "search";
  filters.push((row) => row.textContent.toLowerCase().includes(words.value.trim().toLowerCase()));
  labelled("Words", words);
  place.append(shown);
  place.hidden = false;
  filter();
})();
