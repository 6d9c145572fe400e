"use strict";
// The field record, boxproof-asbuilt/1, as boxproof reads it: keys, ranges, words. Fields are made from this,
// loaded files are held against it, and what leaves the page has passed through it.

const formatName = "boxproof-asbuilt/1";
const plan = JSON.parse(document.getElementById("plan").textContent);

const text = { type: "text" };
const flag = { type: "flag" };
const day = { type: "day" };
const words = (...list) => ({ type: "word", words: list });
const members = (of) => ({ type: "object", members: of });
const list = (of) => ({ type: "list", of });
const noEnd = 1e15;
const between = (least, most, unit) => ({ type: "number", least, most, unit });
const notNegative = (unit) => between(0, noEnd, unit);
const positive = (unit) => ({ ...between(0, noEnd, unit), above: true });
const count = { ...between(0, 1e9, ""), whole: true };
const fromOne = { ...between(1, 1e9, ""), whole: true };

const size = words(...plan.sizes);
const material = words("copper", "aluminum");
const wire = { size, material, stranding: words("solid", "coarse", "fine"), insulation: text };

const boxShape = members({
  id: text,
  posted: members({
    id: text,
    strings: count,
    series: count,
    max_v: notNegative("V"),
    max_a: notNegative("A"),
    fuse_a: notNegative("A"),
  }),
  count: members({
    positive: count,
    negative: count,
    fuses: count,
    series: { type: "series", of: fromOne },
    modules: count,
  }),
  fuse: members({ a: positive("A"), v: positive("V"), dc: flag, pv_listed: flag, poles: words("one", "both") }),
  mixed_fuses: list(members({ position: fromOne, a: positive("A") })),
  enclosure: members({
    type: { ...text, usual: plan.enclosure_types },
    air_gap_mm: notNegative("mm"),
    cover: words("side", "up"),
    listed: flag,
    secured: flag,
    gasket_seated: flag,
  }),
  disconnect: members({
    present: flag,
    rated_v: positive("V"),
    rated_a: positive("A"),
    load_break: flag,
    distance_m: notNegative("m"),
    works: flag,
  }),
  output: members({ ...wire, antioxidant: flag, lug_for_fine_strand: flag }),
  source: members(wire),
  egc: members({ size, material }),
  labels: list(members({ kind: words(...plan.label_kinds), legible: flag, values: { type: "values" } })),
  seen: list(
    members({
      what: words(...plan.conditions.flatMap((group) => group.words.map(([word]) => word))),
      where: text,
      origin: words("installation", "manufacture", "unknown"),
      photo: text,
      note: text,
    }),
  ),
  measured: members({
    irradiance_w_m2: between(0, 2000, "W/m²"),
    cell_c: between(-70, 150, "°C"),
    tolerance_pct: between(0, 20, "%"),
    strings: list(
      members({
        position: fromOne,
        voc_v: between(-3000, 3000, "V"),
        isc_a: notNegative("A"),
        insulation_mohm: notNegative("MΩ"),
        reversed: flag,
      }),
    ),
  }),
});
const visitShape = members({ date: day, by: text, kind: words("first", "again"), weather: text });
const requiredKeys = { labels: "kind", seen: "what" };

const isObject = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
const own = (object, key) => Object.prototype.hasOwnProperty.call(object, key);
const copy = (value) => (value === undefined ? undefined : JSON.parse(JSON.stringify(value)));

// The value at a path of keys and list positions; undefined where there is none.
function at(value, path) {
  for (const key of path) {
    if (typeof value !== "object" || value === null || !own(value, key)) return undefined;
    value = value[key];
  }
  return value;
}

// Puts a value there, or takes it out (undefined) together with objects that it leaves empty. Objects on the
// way are made, entries of lists are not.
function put(record, path, value) {
  const [key, ...rest] = path;
  if (rest.length === 0) {
    if (value === undefined) delete record[key];
    else record[key] = value;
    return;
  }
  if (typeof record[key] !== "object" || record[key] === null) {
    if (value === undefined || Array.isArray(record)) return;
    record[key] = {};
  }
  put(record[key], rest, value);
  if (isObject(record[key]) && Object.keys(record[key]).length === 0 && !Array.isArray(record))
    delete record[key];
}

function shapeAt(path, shape = boxShape) {
  for (const key of path) shape = shape.type === "list" ? shape.of : shape.members[key];
  return shape;
}

const brief = (value) => {
  const written = plain(
    typeof value === "string"
      ? `"${value}"`
      : Array.isArray(value)
        ? "a list"
        : isObject(value)
          ? "an object"
          : String(value),
  );
  return written.length > 60 ? written.slice(0, 59) + "…" : written;
};

// What a number must be, in words; with no number: what was expected at all.
function expectedNumber({ least, most, unit, above, whole }) {
  const what = (whole ? "a whole number" : "a number") + (unit ? ` of ${unit}` : "");
  if (most >= 1e9) return what + (above ? ` above ${least}` : ` of at least ${least}`);
  return `${what} from ${least} to ${most}`;
}

// What is wrong with a value, in words; empty: nothing.
function wrong(value, shape) {
  const found = (expected) => `found ${brief(value)}, expected ${expected}`;
  switch (shape.type) {
    case "text":
      return typeof value === "string" ? "" : found("text");
    case "flag":
      return typeof value === "boolean" ? "" : found("true or false");
    case "day":
      return isDay(value) ? "" : found("a day as YYYY-MM-DD");
    case "word":
      return shape.words.includes(value) ? "" : found(`one of ${shape.words.join(", ")}`);
    case "number": {
      const fits =
        typeof value === "number" &&
        Number.isFinite(value) &&
        value <= shape.most &&
        (!shape.whole || Number.isInteger(value)) &&
        (shape.above ? value > shape.least : value >= shape.least);
      return fits ? "" : found(expectedNumber(shape));
    }
    case "object":
    case "values":
      return isObject(value) ? "" : found("an object");
    case "list":
      return Array.isArray(value) ? "" : found("a list");
    case "series":
      return Array.isArray(value) || typeof value === "number"
        ? ""
        : found("a number, or a list with one for each string");
    default:
      return "";
  }
}

function isDay(value) {
  if (typeof value !== "string" || !/^\d{4}-\d\d-\d\d$/.test(value)) return false;
  const [year, month, date] = value.split("-").map(Number);
  const when = new Date(Date.UTC(2000, month - 1, 1));
  when.setUTCFullYear(year, month - 1, date);
  return when.getUTCFullYear() === year && when.getUTCMonth() === month - 1 && when.getUTCDate() === date;
}

// Calls told(path, what) for each thing that is wrong with a value, and unknown(path) for each key that the
// format does not have.
function examine(value, shape, path, told, unknown) {
  const problem = wrong(value, shape);
  if (problem) return told(path, problem);
  if (shape.type === "list") value.forEach((entry, i) => examine(entry, shape.of, [...path, i], told, unknown));
  if (shape.type === "series") {
    if (!Array.isArray(value)) examine(value, shape.of, path, told, unknown);
    else value.forEach((entry, i) => examine(entry, shape.of, [...path, i], told, unknown));
  }
  if (shape.type === "values")
    for (const key of Object.keys(value))
      if (typeof value[key] !== "string" && typeof value[key] !== "number")
        told([...path, key], `found ${brief(value[key])}, expected the number or text on the label`);
  if (shape.type !== "object") return;
  for (const key of Object.keys(value)) {
    if (own(shape.members, key)) examine(value[key], shape.members[key], [...path, key], told, unknown);
    else if (key !== "note") unknown([...path, key]);
  }
  const required = requiredKeys[path[path.length - 2]];
  if (required && typeof path[path.length - 1] === "number" && !own(value, required))
    told(path, `found no "${required}", expected it here`);
}

// Lists that say something when they are empty: somebody looked, and there were none.
const lookedLists = ["labels", "seen", "mixed_fuses"];

// A box as it is exported: without objects and lists that hold nothing. A list that is empty because its entries
// hold nothing says nothing.
function tidy(value, key) {
  if (Array.isArray(value)) {
    if (value.length === 0) return lookedLists.includes(key) ? [] : undefined;
    const kept = value.map((entry) => tidy(entry)).filter((entry) => entry !== undefined);
    return kept.length === 0 ? undefined : kept;
  }
  if (!isObject(value)) return typeof value === "string" ? wellFormed(value) : value;
  const pairs = Object.keys(value)
    .map((name) => [name, tidy(value[name], name)])
    .filter(([, kept]) => kept !== undefined);
  return pairs.length === 0 ? undefined : Object.fromEntries(pairs);
}

// Half of a pair of code units is no character, and no UTF-8 file can hold it.
const wellFormed = (value) =>
  value.replace(/[\uD800-\uDBFF][\uDC00-\uDFFF]|[\uD800-\uDFFF]/g, (found) =>
    found.length === 2 ? found : "\uFFFD",
  );

// Text from elsewhere, for the eye: what could move, hide or turn other text is shown as an escape.
function plain(value) {
  return String(value).replace(
    /[\u0000-\u001F\u007F-\u009F\u061C\u200E\u200F\u2028-\u202E\u2066-\u2069\uFEFF]/g,
    (found) => `\\u{${found.codePointAt(0).toString(16).toUpperCase()}}`,
  );
}

// What somebody typed as a number: { value }, { } where it is empty, or { problem }.
function toNumber(raw, shape) {
  const typed = raw.trim().replace("−", "-");
  if (typed === "") return {};
  if (typed.includes(","))
    return { problem: `found "${brief(typed).slice(1, -1)}"; write 1000 or 12.5, without a comma` };
  const value = /^[-+]?(\d+\.?\d*|\.\d+)$/.test(typed) ? Number(typed) : typed;
  const problem = wrong(value, shape);
  return problem ? { problem } : { value };
}
