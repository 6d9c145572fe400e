"use strict";
// Sorting and filtering the boxes. The page says everything without this; nothing here comes from another place.

const table = document.getElementById("boxes");
const rows = Array.from(table.tBodies[0].rows);
const sheetOf = (row) => document.getElementById(row.querySelector("a").hash.slice(1));

const element = (name, properties = {}, ...children) => {
  const made = Object.assign(document.createElement(name), properties);
  made.append(...children);
  return made;
};

// Sorting: ids as people count (A-9 before A-10), numbers as numbers, verdicts by their weight; what is not known
// stands last either way.
const verdicts = ["stop", "correct", "not-visited", "clarify", "accept"];
const words = new Intl.Collator("en", { numeric: true });

const numberOf = (cell) => {
  const number = parseFloat(cell.textContent.replace("−", "-"));
  return Number.isNaN(number) ? null : number;
};

const compareCells = (column, head) => {
  const cell = (row) => row.cells[column];
  if (head.textContent === "Verdict")
    return (a, b) => verdicts.indexOf(a.dataset.verdict) - verdicts.indexOf(b.dataset.verdict);
  if (head.classList.contains("num"))
    return (a, b, sign) => {
      const [left, right] = [numberOf(cell(a)), numberOf(cell(b))];
      if (left === null || right === null) return ((left === null) - (right === null)) * sign;
      return left - right;
    };
  return (a, b) => words.compare(cell(a).textContent, cell(b).textContent);
};

const sortBy = (head, column, compare) => {
  const down = head.getAttribute("aria-sort") === "ascending";
  const sign = down ? -1 : 1;
  for (const other of table.tHead.rows[0].cells) other.removeAttribute("aria-sort");
  head.setAttribute("aria-sort", down ? "descending" : "ascending");
  const sorted = rows.slice().sort((a, b) => sign * compare(a, b, sign) || rows.indexOf(a) - rows.indexOf(b));
  table.tBodies[0].append(...sorted);
};

Array.from(table.tHead.rows[0].cells).forEach((head, column) => {
  const compare = compareCells(column, head);
  const button = element("button", { type: "button" }, ...head.childNodes);
  button.addEventListener("click", () => sortBy(head, column, compare));
  head.append(button);
});

// Filtering: every word must be somewhere in a box's id, sheet, type, location or rules.
const named = Array.from(table.tHead.rows[0].cells)
  .map((head, column) => [head.textContent, column])
  .filter(([text]) => ["Box", "Sheet", "Type", "Location"].includes(text))
  .map(([, column]) => column);
const haystacks = new Map(rows.map((row) => [
  row, [...named.map((column) => row.cells[column].textContent), row.dataset.rules].join("\n").toLowerCase(),
]));

const text = element("input", { id: "filter-text", type: "search", autocomplete: "off" });
const verdict = element("select", { id: "filter-verdict" }, element("option", { value: "" }, "any"),
  ...verdicts.filter((word) => rows.some((row) => row.dataset.verdict === word))
    .map((word) => element("option", { value: word }, word)));
const shown = element("output", { id: "shown" });
shown.setAttribute("for", "filter-text filter-verdict");
const printed = element("p", { className: "paper filtered", hidden: true });
const controls = element("div", { className: "controls screen" },
  element("label", {}, "Box, sheet, type, location or rule", text),
  element("label", {}, "Verdict", verdict), shown);
controls.setAttribute("role", "search");
table.closest(".scroll").before(controls, printed);
// On paper the title block says it too, for whoever reads the first page alone.
const inTitle = element("p", { className: "paper cell full filtered", hidden: true });
document.querySelector("header.block").append(inTitle);

const describe = () => {
  const parts = [];
  if (text.value.trim()) parts.push(`with “${text.value.trim()}”`);
  if (verdict.value) parts.push(`with the verdict ${verdict.value}`);
  return parts.join(" and ");
};

const filter = () => {
  const wanted = text.value.toLowerCase().split(/\s+/).filter(Boolean);
  let count = 0;
  for (const row of rows) {
    const fits = wanted.every((word) => haystacks.get(row).includes(word))
      && (!verdict.value || row.dataset.verdict === verdict.value);
    row.hidden = !fits;
    sheetOf(row).hidden = !fits;
    count += fits ? 1 : 0;
  }
  shown.textContent = `${count} of ${rows.length} ${rows.length === 1 ? "box" : "boxes"}`;
  printed.hidden = !describe();
  printed.textContent = `Filtered: ${shown.textContent} shown in this table and in the box sheets, ${describe()}. `
    + "Verdict, counts and findings are those of the whole report.";
  inTitle.hidden = printed.hidden;
  inTitle.textContent = printed.textContent.replace("this table", "the table of boxes");
};

text.addEventListener("input", filter);
verdict.addEventListener("change", filter);
filter();

// A link to a box shows it, though the filter hides it, with its drawing open.
document.addEventListener("click", (event) => {
  const link = event.target.closest?.("a[href^='#box-']");
  const sheet = link && document.getElementById(link.hash.slice(1));
  if (!sheet) return;
  sheet.querySelector("details.more")?.setAttribute("open", "");
  if (!sheet.hidden) return;
  text.value = "";
  verdict.value = "";
  filter();
});
