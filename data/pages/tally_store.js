"use strict";
// What was counted: in memory, and at once in the browser's storage, a key a box, so that a tap writes one box
// and a closed page loses nothing. The state is the field record itself: keys that this page does not know stay.

const visitId = ""; // no box has an empty id: the visit is kept beside the boxes
const keyOf = (id) => (id === visitId ? `${plan.key}/visit` : `${plan.key}/box/${id}`);
const draftKeyOf = (id) => `${plan.key}/draft/${id}`;
const metaKey = `${plan.key}/meta`;

const planned = new Map(); // id → the plan's box; `asked`: whether it is on this sheet
for (const box of plan.others) planned.set(box.id, { ...box, asked: false });
for (const box of plan.boxes) planned.set(box.id, { ...box, asked: true });
const kindOf = (id) => (planned.has(id) ? plan.kinds[planned.get(id).kind] : null);

const kept = {
  records: new Map(), // id → the box of the field record, or the visit
  drafts: new Map(), // id → { path: what was typed and is no value }
  meta: { stamp: plan.stamp, changed: false, rest: {} }, // changed: since the last export; rest: the record's other keys
  texts: new Map(), // key → what stands in the storage, as far as this page knows
  unsaved: new Set(), // keys that could not be written
  steps: [], // to be undone
  listeners: [],
};
const onChange = (listener) => kept.listeners.push(listener);
// about: "own" (a change made in this page's fields), "undo", "whole" (boxes replaced), "elsewhere" (another tab),
// "storage" (what cannot be kept)
const tell = (ids, about) => kept.listeners.forEach((listener) => listener(ids, about));
const recordOf = (id) => kept.records.get(id) ?? (id === visitId ? {} : { id });
const draftsOf = (id) => kept.drafts.get(id) ?? {};
const begun = (id) =>
  Object.keys(tidy(recordOf(id)) ?? {}).some((key) => key !== "id") || Object.keys(draftsOf(id)).length > 0;
const recordedIds = () => [...kept.records.keys()].filter((id) => id !== visitId);

// Storage may be absent, forbidden or full: then counts live in this page alone, and a bar says so.
const storage = (() => {
  try {
    const probe = `${plan.key}/probe`;
    window.localStorage.setItem(probe, "1");
    window.localStorage.removeItem(probe);
    return window.localStorage;
  } catch {
    return null;
  }
})();

function save(key, value) {
  const written = value === undefined ? null : JSON.stringify(value);
  if (kept.texts.get(key) === written && !kept.unsaved.has(key)) return;
  try {
    if (storage === null) throw new Error("no storage");
    if (written === null) storage.removeItem(key);
    else storage.setItem(key, written);
    kept.texts.set(key, written);
    kept.unsaved.delete(key);
  } catch {
    kept.unsaved.add(key);
    tell([], "storage");
  }
}
const saveRecord = (id) => save(keyOf(id), kept.records.get(id));
const saveDrafts = (id) => save(draftKeyOf(id), kept.drafts.get(id));
const saveMeta = () => save(metaKey, kept.meta);

// What could not be written before is tried again with every change.
function saveAgain() {
  for (const key of [...kept.unsaved]) {
    if (key === metaKey) saveMeta();
    else if (key.startsWith(draftKeyOf(""))) saveDrafts(key.slice(draftKeyOf("").length));
    else saveRecord(key === keyOf(visitId) ? visitId : key.slice(keyOf("x").length - 1));
    if (kept.unsaved.has(key)) return;
  }
}

// Takes over what stands in the storage under a key: at the start, and where another tab wrote it. Says which
// box that is; undefined: none of ours, or no news.
function adopt(key) {
  if (storage === null || kept.unsaved.has(key)) return undefined;
  const written = storage.getItem(key);
  if ((kept.texts.get(key) ?? null) === written) return undefined;
  kept.texts.set(key, written);
  let value;
  try {
    value = written === null ? undefined : JSON.parse(written);
  } catch {
    return undefined;
  }
  if (value !== undefined && !isObject(value)) return undefined;
  if (key === metaKey) {
    kept.meta = { stamp: plan.stamp, changed: false, rest: {}, ...value };
    return visitId;
  }
  const keepIn = (map, id) => {
    if (value === undefined) map.delete(id);
    else map.set(id, value);
    return id;
  };
  if (key.startsWith(draftKeyOf(""))) return keepIn(kept.drafts, key.slice(draftKeyOf("").length));
  if (key === keyOf(visitId)) return keepIn(kept.records, visitId);
  if (key.startsWith(`${plan.key}/box/`)) return keepIn(kept.records, key.slice(`${plan.key}/box/`.length));
  return undefined;
}

// All keys of this site: those in the storage, and those that were there.
function adoptAll() {
  if (storage === null) return [];
  const keys = new Set(kept.texts.keys());
  for (let i = 0; i < storage.length; ++i)
    if (storage.key(i).startsWith(`${plan.key}/`)) keys.add(storage.key(i));
  return [...keys].map(adopt).filter((id) => id !== undefined);
}
window.addEventListener("storage", (event) => {
  if (event.key !== null && !event.key.startsWith(`${plan.key}/`)) return;
  const changed = event.key === null ? adoptAll() : [adopt(event.key)].filter((id) => id !== undefined);
  if (changed.length > 0) tell(changed, "elsewhere");
});
// Some browsers tell nothing between pages opened from files: whoever comes back to the page looks.
document.addEventListener("visibilitychange", () => {
  if (document.visibilityState !== "visible") return;
  const changed = adoptAll();
  if (changed.length > 0) tell(changed, "elsewhere");
});
window.addEventListener("pagehide", saveAgain);

function markChanged(changed) {
  if (kept.meta.changed === changed) return;
  kept.meta.changed = changed;
  saveMeta();
}

// A step is what to put back: values at paths, whole boxes (path []), or everything.
const mostSteps = 200;
function remember(step) {
  kept.steps.push(step);
  if (kept.steps.length > mostSteps) kept.steps.shift();
}

function setRecord(id, record) {
  if (record === undefined) kept.records.delete(id);
  else kept.records.set(id, record);
}
function setDraft(id, name, raw) {
  const drafts = { ...draftsOf(id) };
  if (raw === undefined) delete drafts[name];
  else drafts[name] = raw;
  if (Object.keys(drafts).length > 0) kept.drafts.set(id, drafts);
  else kept.drafts.delete(id);
}

// Puts a value (undefined: takes it out) at a path of a box, or of the visit. `typing`: one key after another
// in the same field is one step. `draft`: what stands in the field where it is no value, under `name`.
function change(id, path, value, { what, typing, draft, name = path.join(".") } = {}) {
  const elsewhere = adopt(keyOf(id)) !== undefined;
  const before = copy(at(recordOf(id), path));
  const draftBefore = draftsOf(id)[name];
  if (JSON.stringify(before) === JSON.stringify(value) && draftBefore === draft) return;
  const last = kept.steps[kept.steps.length - 1];
  if (!(typing && last && last.typing && last.id === id && last.name === name))
    remember({ id, path, name, before, draft: draftBefore, what, typing: typing === true });
  const record = copy(recordOf(id));
  put(record, path, value);
  setRecord(id, record);
  setDraft(id, name, draft);
  saveAgain();
  saveRecord(id);
  saveDrafts(id);
  markChanged(true);
  tell([id], elsewhere ? "elsewhere" : "own");
}

// Replaces whole boxes: { id → record, undefined to clear }. One step, with the drafts of those boxes.
function changeWhole(records, what, rest = kept.meta.rest) {
  const before = [...records.keys()].map((id) => [id, copy(kept.records.get(id)), copy(kept.drafts.get(id))]);
  remember({ before, what, rest: kept.meta.rest });
  kept.meta.rest = rest;
  for (const [id, record] of records) {
    setRecord(id, record);
    kept.drafts.delete(id);
    saveRecord(id);
    saveDrafts(id);
  }
  saveMeta();
  markChanged(true);
  tell([...records.keys()], "whole");
}

// Takes back the last step; says what it was.
function undo() {
  const step = kept.steps.pop();
  if (step === undefined) return undefined;
  const ids = [];
  if (Array.isArray(step.before) && step.path === undefined) {
    for (const [id, record, drafts] of step.before) {
      setRecord(id, record);
      if (drafts === undefined) kept.drafts.delete(id);
      else kept.drafts.set(id, drafts);
      ids.push(id);
    }
    kept.meta.rest = step.rest;
    saveMeta();
  } else {
    adopt(keyOf(step.id));
    const record = copy(recordOf(step.id));
    put(record, step.path, step.before);
    setRecord(step.id, record);
    setDraft(step.id, step.name, step.draft);
    ids.push(step.id);
  }
  for (const id of ids) {
    saveRecord(id);
    saveDrafts(id);
  }
  markChanged(true);
  tell(ids, step.path === undefined ? "whole" : "undo");
  return step;
}

adoptAll();
