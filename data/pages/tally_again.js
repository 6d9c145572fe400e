"use strict";
// The second visit: what to look at again in a box, and whether the record states it again. A finding is closed by
// what the record says, so what is good has to be entered too.

// Whether the record states a key as boxproof compare looks for it: "fuse/a", "seen", "measured/9/voc_v", and
// "measured/*/voc_v" of any string.
function statesKey(id, key) {
  const [group, part, reading] = key.split("/");
  const record = tidy(recordOf(id)) ?? {};
  if (reading === undefined) return at(record, part === undefined ? [group] : [group, part]) !== undefined;
  const strings = at(record, ["measured", "strings"]) ?? [];
  return strings.some(
    (one, i) => (part === "*" || String(one.position ?? i + 1) === part) && one[reading] !== undefined,
  );
}

const againItems = (id) => planned.get(id)?.again ?? [];
// A finding of the box as a whole is looked at again when the box is counted.
const isLookedAt = (id, item) =>
  item.keys.length === 0 ? isCounted(id) : item.keys.every((key) => statesKey(id, key));
const openAgain = (id) => againItems(id).filter((item) => !isLookedAt(id, item)).length;

let againMarks = []; // of the box that is shown: a finding, and the sign behind it

// The panel above the counters; nothing on a sheet of a first visit.
function againPart(id) {
  againMarks = [];
  const items = againItems(id);
  if (items.length === 0) return [];
  const line = (item) => {
    const mark = make("span", { class: "state" });
    againMarks.push({ item, mark });
    return make(
      "li",
      { "data-severity": item.severity },
      make(
        "p",
        { class: "again-head" },
        make("span", { class: `tag ${item.severity}` }, item.severity.toUpperCase()),
        make("span", { class: "hint" }, item.rule),
        mark,
      ),
      make("p", { class: "isolate" }, item.on_plan ? `On the plan: ${item.message}` : item.message),
      make("p", { class: "look isolate" }, make("b", {}, "Look at: "), item.look),
    );
  };
  return [
    make(
      "section",
      { class: "part again", "aria-labelledby": "again-title" },
      make("h3", { id: "again-title" }, "To look at again"),
      make("p", { class: "hint" }, "What is not entered again stays open, what was found good too."),
      make("ul", {}, items.map(line)),
    ),
  ];
}

function refreshAgain() {
  for (const { item, mark } of againMarks) {
    const done = isLookedAt(current, item);
    mark.dataset.state = done ? "done" : "none";
    mark.textContent = done ? "looked at" : "not looked at yet";
  }
}

// A sheet made of a visit's report is of a visit again, until the inspector says otherwise: set once, shown with the
// visit, and no change that has to be exported.
function presetVisit() {
  if (!plan.second?.visited || kept.meta.preset) return;
  kept.meta.preset = true;
  saveMeta();
  if (recordOf(visitId).kind !== undefined) return;
  setRecord(visitId, { ...recordOf(visitId), kind: "again" });
  saveRecord(visitId);
}

// The record of the visit that the report was made of would pass for looked at again.
const isEarlierVisit = (visit) =>
  plan.second !== undefined && plan.second.date !== "" && visit?.date === plan.second.date;
