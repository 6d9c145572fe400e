"use strict";
// The list of boxes: found by id or sheet, in the order of the plan, each with how far it is.

const finder = document.getElementById("find");
const rows = new Map(); // id → { row, mark, note, state, group, words }
const groups = new Map(); // heading → { element, head, ids }
let inOrder = []; // ids as they stand in the list

const offPlan = "Not on the plan",
  offSheet = "On the plan, not on this sheet";
const byName = new Intl.Collator("en", { numeric: true });

function groupNameOf(id) {
  const box = planned.get(id);
  if (box === undefined) return offPlan;
  if (!box.asked) return offSheet;
  return box.sheet ? `Sheet ${box.sheet}` : "No sheet";
}

// Boxes of this sheet, and what else something was entered for.
function listedIds() {
  const more = recordedIds()
    .filter((id) => !planned.get(id)?.asked)
    .concat(
      [...kept.drafts.keys()].filter(
        (id) => id !== visitId && !planned.get(id)?.asked && !kept.records.has(id),
      ),
    );
  if (current !== null && !planned.get(current)?.asked && !more.includes(current)) more.push(current);
  const onPlan = (id) => planned.has(id);
  return [
    ...plan.boxes.map((box) => box.id),
    ...more.filter(onPlan),
    ...more.filter((id) => !onPlan(id)).sort(byName.compare),
  ];
}

function buildList() {
  rows.clear();
  groups.clear();
  inOrder = [];
  for (const id of listedIds()) {
    const name = groupNameOf(id);
    if (!groups.has(name)) {
      const head = make("span", { class: "count" });
      const element = make(
        "section",
        { class: "group" },
        make("h2", {}, listedName("span", name), head),
      );
      groups.set(name, { element, head, ids: [], done: 0 });
    }
    const group = groups.get(name);
    const state = make("span", { class: "state" }),
      note = make("span", { class: "note" });
    const row = button([listedName("b", id), state, note], () => goTo(id), {
      class: "box-row",
      "data-box": id,
    });
    group.ids.push(id);
    group.element.append(row);
    rows.set(id, {
      row,
      mark: state,
      note,
      group,
      state: undefined,
      words: `${id}\n${planned.get(id)?.sheet ?? ""}`.toLowerCase(),
    });
  }
  inOrder = [...groups.values()].flatMap((group) => group.ids);
  document.getElementById("list").replaceChildren(...[...groups.values()].map((group) => group.element));
  for (const id of inOrder) refreshRow(id, false);
  for (const group of groups.values()) showGroup(group);
  showProgress();
  filterList();
  markCurrent();
}

// One row, and what sums it up. Nothing else is touched, so that a tap is answered at once.
function refreshRow(id, sums = true) {
  const entry = rows.get(id);
  if (entry === undefined) return;
  const state = stateOf(id);
  const seen = (recordOf(id).seen ?? []).length;
  const open = openAgain(id);
  const note = [open > 0 && `${open} to look at again`, seen > 0 && `${seen} seen`, notLookedAt(id)]
    .filter(Boolean)
    .join(", ");
  if (entry.note.textContent !== note) entry.note.textContent = note;
  const words = stateText(id);
  if (entry.mark.textContent !== words) entry.mark.textContent = words;
  if (entry.state === state) return;
  entry.group.done += Number(isFinished(state)) - Number(isFinished(entry.state));
  entry.state = state;
  entry.row.dataset.state = state;
  entry.mark.dataset.state = state;
  if (!sums) return;
  showGroup(entry.group);
  showProgress();
}

const showGroup = (group) => {
  group.head.textContent = `${group.done} of ${group.ids.length}`;
};

function showProgress() {
  let done = 0,
    more = 0;
  for (const [name, group] of groups) {
    if (name === offPlan || name === offSheet) more += group.done;
    else done += group.done;
  }
  const all = plan.boxes.length;
  const what = plan.second === undefined ? "counted" : "looked at again";
  const words = `${done} of ${all} ${all === 1 ? "box" : "boxes"} ${what}${more > 0 ? `, and ${more} more` : ""}`;
  const progress = document.getElementById("progress");
  progress.max = Math.max(all, 1);
  progress.value = done;
  progress.textContent = words;
  document.getElementById("progress-text").textContent = words;
}

let marked = null;
function markCurrent() {
  marked?.removeAttribute("aria-current");
  marked = rows.get(current)?.row ?? null;
  marked?.setAttribute("aria-current", "true");
  marked?.scrollIntoView({ block: "nearest" });
}

function filterList() {
  const sought = finder.value.trim().toLowerCase();
  let shown = 0;
  for (const group of groups.values()) {
    let inGroup = 0;
    for (const id of group.ids) {
      const fits = rows.get(id).words.includes(sought);
      rows.get(id).row.hidden = !fits;
      inGroup += Number(fits);
    }
    group.element.hidden = inGroup === 0;
    shown += inGroup;
  }
  document.getElementById("found").textContent = sought === "" ? "" : `${shown} of ${inOrder.length} shown`;
  offerToAdd(finder.value.trim());
}

// A box that is not in the list: on the plan and not on this sheet, or found on the roof alone.
function offerToAdd(id) {
  const place = document.getElementById("adding");
  if (id === "" || rows.has(id)) return place.replaceChildren();
  const words = planned.has(id) ? "It is on the plan, not on this sheet." : "It is not on the plan.";
  place.replaceChildren(
    button(`Add box “${plain(id)}”`, () => addBox(id), { id: "add" }),
    make("p", { class: "hint" }, words),
  );
}

function addBox(id) {
  if (!planned.has(id)) changeWhole(new Map([[id, { id }]]), `adding ${plain(id)}`);
  finder.value = "";
  current = id;
  buildList();
  goTo(id);
}

finder.addEventListener("input", filterList);
finder.addEventListener("keydown", (event) => {
  const first = inOrder.find((id) => !rows.get(id).row.hidden);
  if (event.key === "Enter" && first !== undefined)
    goTo(rows.has(finder.value.trim()) ? finder.value.trim() : first);
  if (event.key === "ArrowDown" && first !== undefined) {
    event.preventDefault();
    rows.get(first).row.focus();
  }
});
document.getElementById("list").addEventListener("keydown", (event) => {
  const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
  const id = document.activeElement?.dataset?.box;
  if (by === undefined || id === undefined) return;
  event.preventDefault();
  const shown = inOrder.filter((one) => !rows.get(one).row.hidden);
  const next = shown[shown.indexOf(id) + by];
  (next === undefined ? finder : rows.get(next).row).focus();
});

// The address says which box is shown, so that the way back works and a reload stays where it was.
const addressOf = (id) => `#box=${encodeURIComponent(wellFormed(id))}`;
function goTo(id) {
  if (window.location.hash === addressOf(id)) return arrive();
  window.location.hash = addressOf(id);
}
function idInAddress() {
  const found = /^#box=(.*)$/.exec(window.location.hash);
  try {
    return found ? decodeURIComponent(found[1]) : null;
  } catch {
    return null;
  }
}
function arrive(focus = true) {
  const id = idInAddress();
  if (id === null || id === visitId || (!planned.has(id) && !kept.records.has(id))) return leftBox();
  current = id;
  if (!rows.has(id)) buildList();
  showBox(id, focus);
  markCurrent();
  savePlace(id);
}
window.addEventListener("hashchange", () => arrive());

// On a narrow screen list and box take turns.
function leaveBox() {
  window.location.hash = "#boxes";
}
function leftBox() {
  if (window.location.hash !== "#boxes") return;
  document.body.dataset.view = "list";
  rows.get(current)?.row.focus();
}
function neighbour(by) {
  const next = inOrder[inOrder.indexOf(current) + by];
  if (next !== undefined) goTo(next);
  else say(by > 0 ? "This is the last box." : "This is the first box.", 0);
}

// Where one was, for a page that is opened again.
const placeKey = `${plan.key}/at`;
function savePlace(id) {
  try {
    storage?.setItem(placeKey, id);
  } catch {
    /* full: whoever counts is told by the bar */
  }
}
