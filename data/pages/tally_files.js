"use strict";
// The field record out of the page and into it, and onto paper.

const record = () => ({
  ...kept.meta.rest,
  format: formatName,
  ...(begun(visitId) && tidy(recordOf(visitId)) ? { visit: tidy(recordOf(visitId)) } : {}),
  boxes: exportedIds().map((id) => ({ id: wellFormed(id), ...tidy({ ...recordOf(id), id: undefined }) })),
});

// In the order of the plan, then by id. A box that is not on the plan is something found by itself.
function exportedIds() {
  const has = (id) =>
    kept.records.has(id) &&
    (!planned.has(id) || Object.keys(tidy(recordOf(id)) ?? {}).some((key) => key !== "id"));
  const others = recordedIds()
    .filter((id) => !planned.has(id))
    .sort(byName.compare);
  return [...[...planOrder].filter(has), ...others];
}
const planOrder = [...plan.boxes, ...plan.others].map((box) => box.id);
const recordText = () => `${JSON.stringify(record(), null, 2)}\n`;

function fileName() {
  const site =
    plan.site
      .normalize("NFKD")
      .replace(/[^A-Za-z0-9]+/g, "-")
      .replace(/^-+|-+$/g, "")
      .toLowerCase()
      .slice(0, 60) || "site";
  const now = new Date();
  const today = `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, "0")}-${String(now.getDate()).padStart(2, "0")}`;
  return `${site}-${recordOf(visitId).date ?? today}.json`;
}

// What was typed and is no value would be left out without a word.
async function mayExport() {
  const drafts = [...kept.drafts].flatMap(([id, typed]) =>
    Object.entries(typed).map(
      ([name, raw]) => `${id === visitId ? "the visit" : plain(id)}, ${name}: “${plain(raw)}”`,
    ),
  );
  if (drafts.length === 0) return true;
  const shown = drafts.slice(0, 12).map((words) => make("li", {}, words));
  return (
    (await ask(
      `${drafts.length} ${drafts.length === 1 ? "entry is no value" : "entries are no values"}`,
      [
        "They would be left out of the export:",
        make("ul", {}, shown, drafts.length > 12 ? make("li", {}, `and ${drafts.length - 12} more`) : ""),
      ],
      [
        ["", "Back, to correct them", "strong"],
        ["yes", "Export without them"],
      ],
    )) === "yes"
  );
}

function exported(words) {
  markChanged(false);
  showBar(
    "exported",
    words + (recordOf(visitId).date === undefined ? " No date of the visit is entered." : ""),
    { fades: true },
  );
}

async function exportFile() {
  if (!(await mayExport())) return;
  const url = URL.createObjectURL(new Blob([recordText()], { type: "application/json" }));
  const link = make("a", { href: url, download: fileName() });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 60000);
  const boxes = exportedIds().length;
  exported(
    `${boxes} ${boxes === 1 ? "box" : "boxes"} exported to ${fileName()}. See that the file is there before you clear anything.`,
  );
}

async function showText() {
  if (!(await mayExport())) return;
  const area = make("textarea", {
    readonly: true,
    rows: "14",
    id: "record-text",
    "aria-label": "The field record",
    spellcheck: "false",
    ".value": recordText(),
  });
  const done = make("p", { role: "status" });
  const copyAll = button("Copy", async () => {
    area.select();
    try {
      if (navigator.clipboard) await navigator.clipboard.writeText(area.value);
      else if (!document.execCommand("copy")) throw new Error("not copied");
      done.textContent = "Copied.";
      markChanged(false);
    } catch {
      done.textContent = "The browser does not copy here. The text is selected: copy it by hand.";
    }
  });
  await ask(
    "The field record as text",
    [
      `Where downloads do not work: copy it into a file named ${fileName()}.`,
      area,
      make("div", { class: "row" }, copyAll, done),
    ],
    [["", "Close", "strong"]],
  );
}

// Reads a field record: { boxes, visit, rest, unknown }, or { problems }.
function readRecord(written) {
  let value;
  try {
    value = JSON.parse(written);
  } catch (error) {
    return { problems: [`found no JSON (${error.message}), expected a field record`] };
  }
  if (!isObject(value))
    return { problems: [`found ${brief(value)}, expected an object with "format" and "boxes"`] };
  if (value.format !== formatName)
    return {
      problems: [
        `found ${value.format === undefined ? 'no "format"' : `the format ${brief(value.format)}`}, expected "${formatName}"`,
      ],
    };
  if (!Array.isArray(value.boxes))
    return {
      problems: [
        `found ${value.boxes === undefined ? 'no "boxes"' : brief(value.boxes)}, expected a list of boxes`,
      ],
    };
  const problems = [],
    unknown = [],
    ids = new Set();
  const told = (path, what) => problems.push(`${path.join(".")}: ${what}`);
  const noted = (path) => unknown.push(path.join("."));
  if (value.visit !== undefined) examine(value.visit, visitShape, ["visit"], told, noted);
  value.boxes.forEach((box, i) => {
    examine(box, boxShape, ["boxes", i], told, noted);
    if (!isObject(box)) return;
    if (typeof box.id !== "string" || box.id === "")
      told(
        ["boxes", i, "id"],
        `found ${box.id === undefined ? "none" : brief(box.id)}, expected the id of a box`,
      );
    else if (ids.has(box.id))
      told(["boxes", i, "id"], `found ${brief(box.id)} a second time, expected each box once`);
    ids.add(box.id);
  });
  const { format, visit, boxes, ...rest } = value;
  for (const key of Object.keys(rest)) if (key !== "note" && key !== "$schema") noted([key]);
  return problems.length > 0 ? { problems } : { boxes, visit, rest, unknown };
}

async function loadFile(file) {
  const { problems, boxes, visit, rest, unknown } = readRecord(await file.text());
  if (problems) {
    const shown = problems.slice(0, 10).map((words) => make("li", { class: "isolate" }, plain(words)));
    await ask(
      "This file was not loaded",
      [
        make("p", { class: "isolate" }, `${plain(file.name)}; nothing here was changed.`),
        make(
          "ul",
          { id: "load-problems" },
          shown,
          problems.length > 10 ? make("li", {}, `and ${problems.length - 10} more`) : "",
        ),
      ],
      [["", "Close", "strong"]],
    );
    return;
  }
  const here = recordedIds().filter(begun);
  const both = boxes.filter((box) => begun(box.id)).length;
  const said =
    `Read ${boxes.length} ${boxes.length === 1 ? "box" : "boxes"}${visit?.date ? `, visited ${visit.date}` : ""}${visit?.by ? ` by ${brief(visit.by).slice(1, -1)}` : ""}.` +
    (unknown.length > 0
      ? ` ${unknown.length} keys that this page does not know are kept as they are: ${plain([...new Set(unknown)].slice(0, 5).join(", "))}.`
      : "");
  if (
    isEarlierVisit(visit) &&
    (await ask(
      "This is the record of the earlier visit",
      [
        `Its date, ${visit.date}, is that of the report behind this sheet. Whatever is in it would count as looked at again.`,
      ],
      [
        ["yes", "Load it all the same", "danger"],
        ["", "Cancel", "strong"],
      ],
    )) !== "yes"
  )
    return;
  let answer = "replace";
  if (here.length > 0 || begun(visitId))
    answer = await ask(
      "There are counts here",
      [
        make("p", { class: "isolate" }, `${plain(file.name)}: ${said}`),
        `${here.length} ${here.length === 1 ? "box has" : "boxes have"} something entered here, ${both} of them ${both === 1 ? "is" : "are"} in the file too.`,
      ],
      [
        ["replace", "Replace everything here", "danger"],
        ["fill", "Only boxes not begun here"],
        ["", "Cancel", "strong"],
      ],
    );
  if (answer === "") return;
  const records = new Map();
  if (answer === "replace") for (const id of kept.records.keys()) records.set(id, undefined);
  if (answer === "replace") for (const id of kept.drafts.keys()) records.set(id, undefined);
  for (const box of boxes) if (answer === "replace" || !begun(box.id)) records.set(box.id, box);
  if (visit !== undefined)
    records.set(visitId, answer === "replace" ? visit : { ...visit, ...recordOf(visitId) });
  changeWhole(records, "loading a record", answer === "replace" ? rest : { ...rest, ...kept.meta.rest });
  if (answer === "replace") markChanged(false);
  showBar("loaded", `${said} ${answer === "fill" ? `${boxes.length - both} taken over.` : ""}`, {
    fades: true,
  });
}

async function clearAll() {
  const here = recordedIds().length;
  const words = kept.meta.changed
    ? "There is something that was not exported since it was entered."
    : "Everything was exported before.";
  if (
    (await ask(
      "Clear everything?",
      [
        `${here} ${here === 1 ? "box has" : "boxes have"} something entered. ${words} Undo brings it back until the page is closed.`,
      ],
      [
        ["yes", "Clear everything", "danger"],
        ["", "Keep it", "strong"],
      ],
    )) !== "yes"
  )
    return;
  changeWhole(
    new Map([...kept.records.keys(), ...kept.drafts.keys()].map((id) => [id, undefined])),
    "clearing everything",
    {},
  );
  markChanged(false);
  showBar("cleared", "Everything is cleared.", { fades: true, buttons: [undoButton()] });
}

const noneWords = { seen: "looked: nothing seen", mixed_fuses: "all fuses alike", labels: "no labels" };

// Paper: a plain table of what was counted.
function printTable() {
  const paper = document.getElementById("paper");
  const visit = recordOf(visitId);
  const cell = (value) => make("td", {}, value === undefined ? "" : plain(value));
  const counted = (id, which) => {
    const value = at(recordOf(id), ["count", which]);
    const kind = kindOf(id);
    return make(
      "td",
      { class: "num" },
      value === undefined ? "" : `${value}`,
      kind ? make("small", {}, ` / ${plannedCounts(kind, which).join(" or ")}`) : "",
    );
  };
  const series = (id) => {
    const value = at(recordOf(id), ["count", "series"]);
    return cell(Array.isArray(value) ? value.join(" ") : value);
  };
  const label = (posted = {}, id) =>
    cell(
      [
        posted.id !== undefined && posted.id !== id && `“${posted.id}”`,
        (posted.strings !== undefined || posted.series !== undefined) &&
          `${posted.strings ?? "?"} ${posted.strings === 1 ? "string" : "strings"} of ${posted.series ?? "?"}`,
        posted.max_v !== undefined && `${posted.max_v} V`,
        posted.max_a !== undefined && `${posted.max_a} A`,
        posted.fuse_a !== undefined && `fuses ${posted.fuse_a} A`,
      ]
        .filter(Boolean)
        .join(", "),
    );
  const rest = (id) =>
    cell(
      [
        ...(recordOf(id).seen ?? []).map((one) => `${wordName(one.what)}${one.where ? ` (${one.where})` : ""}`),
        ...Object.entries(noneWords)
          .filter(([key]) => recordOf(id)[key]?.length === 0)
          .map(([, words]) => words),
        typeof recordOf(id).note === "string" ? recordOf(id).note : "",
      ]
        .filter(Boolean)
        .join("; "),
    );
  const ids = exportedIds();
  const open = plan.boxes.map((box) => box.id).filter((id) => !ids.includes(id));
  paper.replaceChildren(
    make("h1", { class: "isolate" }, `Field record: ${plain(plan.site)}`),
    make(
      "p",
      {},
      [
        visit.date && `Visited ${visit.date}`,
        visit.by && `by ${plain(visit.by)}`,
        visit.kind && wordName(visit.kind),
        visit.weather && plain(visit.weather),
      ]
        .filter(Boolean)
        .join(", ") || "Visit not stated",
    ),
    make(
      "p",
      {},
      document.getElementById("progress-text").textContent +
        ". Counted / plan; an empty place was not counted.",
    ),
    make(
      "table",
      {},
      make(
        "thead",
        {},
        make(
          "tr",
          {},
          [
            "Box",
            "Sheet",
            "Positives",
            "Negatives",
            "Fuses",
            "In series",
            "Label says",
            "Against the plan",
            "Seen, note",
          ].map((name) => make("th", { scope: "col" }, name)),
        ),
      ),
      make(
        "tbody",
        {},
        ids.map((id) =>
          make(
            "tr",
            {},
            make("th", { scope: "row" }, nameElement("span", id)),
            make("td", {}, nameElement("span", planned.get(id)?.sheet ?? "")),
            counted(id, "positive"),
            counted(id, "negative"),
            counted(id, "fuses"),
            series(id),
            label(recordOf(id).posted, id),
            cell(againstPlan(id)),
            rest(id),
          ),
        ),
      ),
    ),
    open.length > 0
      ? make(
          "p",
          { class: "untouched" },
          "Nothing entered for: ",
          open.flatMap((id, i) => [i > 0 ? ", " : "", nameElement("span", id)]),
        )
      : "",
  );
}
window.addEventListener("beforeprint", printTable);
