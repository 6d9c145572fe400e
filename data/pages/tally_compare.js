"use strict";
// What was counted against the plan. Where the plan states nothing there is nothing to differ from.

// Of the numbers that make the plan true the nearest; undefined where there are none.
function nearest(numbers, value) {
  return numbers.reduce(
    (best, one) => (best === undefined || Math.abs(one - value) < Math.abs(best - value) ? one : best),
    undefined,
  );
}

// A count is one of inputs; where the plan joins strings ahead of the box, it may be one of strings.
function plannedCounts(kind, which) {
  if (which === "fuses") return kind.fuses.length > 0 ? kind.fuses : [0];
  return [...new Set([kind.inputs, kind.strings])];
}

// "2 fewer than the plan"; empty where a count is as planned.
function countDiffers(value, kind, which) {
  if (kind === null || value === undefined) return "";
  const right = nearest(plannedCounts(kind, which), value);
  if (value === right) return "";
  if (which === "fuses" && kind.fuses.length === 0) return "the plan has no fuses";
  return value > right ? `${value - right} more than the plan` : `${right - value} fewer than the plan`;
}

function seriesDiffers(value, kind) {
  const right = kind.groups.map((group) => group.series);
  if (!Array.isArray(value)) return right.some((series) => series !== value);
  const each = kind.groups.flatMap((group) => Array(Math.min(group.strings, 10000)).fill(group.series));
  return value.length > each.length || value.some((series, i) => series !== each[i]);
}

// What the plan has for a key of the record, as a field shows it; undefined where it states nothing.
function plannedAt(kind, path) {
  if (kind === null) return undefined;
  const [part, key] = path;
  if (part === "posted") return plannedOnLabel(kind, key);
  if (part === "count" && key === "modules")
    return { text: `${kind.modules}`, differs: (value) => value !== kind.modules };
  const value = kind[part]?.[key];
  if (value === undefined) return undefined;
  const { unit } = shapeAt(path);
  const words =
    typeof value === "number"
      ? withUnit(value, unit)
      : key === "poles" || key === "cover"
        ? wordName(value)
        : yesNo(value);
  return { text: words, differs: (found) => found !== value };
}

// A label that states more than is computed stands.
function plannedOnLabel(kind, key) {
  const { posted } = kind;
  const series = [...new Set(kind.groups.map((group) => group.series))];
  if (key === "series") return { text: series.join(" or "), differs: (value) => !series.includes(value) };
  const value = posted[key];
  if (value === undefined) return undefined;
  const atLeast = key === "max_v" || key === "max_a";
  const slack = 1e-9 * value;
  return {
    text: atLeast ? `at least ${posted[`${key}_label`]}` : `${value}`,
    differs: (found) => (atLeast ? value > found + slack : found !== value),
  };
}

const comparedParts = {
  posted: ["strings", "series", "max_v", "max_a", "fuse_a"],
  count: ["modules"],
  fuse: ["a", "v", "dc", "pv_listed", "poles"],
  enclosure: ["type", "listed", "cover"],
  disconnect: ["present", "rated_v", "rated_a", "load_break"],
  output: ["size", "material", "stranding", "insulation"],
  source: ["size", "material", "stranding", "insulation"],
  egc: ["size", "material"],
};
const counters = [
  ["positive", "Positives"],
  ["negative", "Negatives"],
  ["fuses", "Fuses"],
];

// What differs from the plan, in a few words each.
function differences(id) {
  const kind = kindOf(id);
  const record = recordOf(id);
  if (kind === null) return ["not on the plan"];
  const out = [];
  for (const [which, name] of counters) {
    const words = countDiffers(at(record, ["count", which]), kind, which);
    if (words) out.push(`${name.toLowerCase()}: ${words}`);
  }
  const series = at(record, ["count", "series"]);
  if (series !== undefined && seriesDiffers(series, kind)) out.push("modules in series");
  if (at(record, ["posted", "id"]) !== undefined && at(record, ["posted", "id"]) !== id) out.push("label: id");
  for (const [part, keys] of Object.entries(comparedParts))
    for (const key of keys) {
      const value = at(record, [part, key]);
      if (value !== undefined && plannedAt(kind, [part, key])?.differs(value))
        out.push(`${{ posted: "label: ", count: "" }[part] ?? `${part}: `}${key.replaceAll("_", " ")}`);
    }
  if ((record.mixed_fuses ?? []).length > 0) out.push("unlike fuses");
  return out;
}

// Positives, negatives and, where the plan has fuses, fuses are counted.
const isCounted = (id) => {
  const kind = kindOf(id);
  const count = recordOf(id).count ?? {};
  return (
    count.positive !== undefined &&
    count.negative !== undefined &&
    (count.fuses !== undefined || (kind !== null && kind.fuses.length === 0))
  );
};
// Counted; on a second visit: all that was to be looked at again was.
const isDone = (id) => (againItems(id).length > 0 ? openAgain(id) === 0 : isCounted(id));

// Counts alone say nothing of the rest of a box, so no state calls a box done or as planned.
const stateWords = {
  none: "not begun",
  begun: "begun",
  done: "counts as planned",
  differs: "differs from the plan",
};
const stateText = (id) =>
  stateOf(id) === "done" && !isCounted(id) ? "looked at again" : stateWords[stateOf(id)];

const isFinished = (state) => state === "done" || state === "differs";

// What nobody looked at yet of a box that passes for counted, in words; empty where nothing is left.
function notLookedAt(id) {
  if (!isFinished(stateOf(id))) return "";
  const { count, posted, seen } = tidy(recordOf(id)) ?? {};
  const left = [
    !isCounted(id) && "counts",
    count?.series === undefined && "series",
    posted === undefined && "label",
    seen === undefined && "conditions",
  ].filter(Boolean);
  return left.length > 0 ? `not looked at: ${left.join(", ")}` : "";
}

// How a box stands against the plan, for paper.
function againstPlan(id) {
  if (!isFinished(stateOf(id)) && planned.has(id)) return "not complete";
  return [differences(id).join(", ") || stateText(id), notLookedAt(id)].filter(Boolean).join("; ");
}

// A box half counted does not differ yet.
function stateOf(id) {
  if (!begun(id) && (kindOf(id) !== null || !kept.records.has(id))) return "none";
  if (!isDone(id)) return "begun";
  return differences(id).length > 0 ? "differs" : "done";
}

// What to find in the box, for somebody who stands in front of it.
function planFacts(id) {
  const box = planned.get(id);
  const kind = kindOf(id);
  const or = (value, unit = "") => (value === undefined ? "?" : withUnit(value, unit));
  const flagWords = (value, yes, no) => (value === undefined ? `${yes}?` : value ? yes : no);
  const wireWords = (wire) =>
    wire
      ? [or(wire.size), or(wire.material), wire.insulation, wire.stranding && `${wire.stranding} strands`]
          .filter(Boolean)
          .join(", ")
      : "not stated";
  const { fuse, enclosure, disconnect } = kind;
  const facts = [
    [
      "Strings",
      kind.groups
        .map(
          (group) =>
            `${group.strings} of ${group.series} modules ${group.module}${kind.groups.length > 1 ? ` (circuit ${group.id})` : ""}${group.joined > 1 ? `, ${group.joined} joined on an input` : ""}`,
        )
        .join("; "),
    ],
    [
      "Inputs",
      `${kind.inputs} used${enclosure?.inputs ? ` of ${enclosure.inputs}` : ""}, ${kind.modules} modules in all`,
    ],
    [
      "Fuses",
      fuse
        ? `${kind.fuses.join(" or ")}: ${or(fuse.a, "A")}, ${or(fuse.v, "V")}, ${flagWords(fuse.dc, "DC", "NOT FOR DC")}, ${flagWords(fuse.pv_listed, "listed for PV", "not listed for PV")}, ${fuse.poles ? wordName(fuse.poles) : "poles ?"}`
        : "none",
    ],
    [
      "Box",
      enclosure
        ? `type ${or(enclosure.type)}, ${flagWords(enclosure.listed, "listed", "not listed")}`
        : "not stated",
    ],
    [
      "Disconnect",
      disconnect.present
        ? `${disconnect.distance_m === 0 ? "in the box" : `${or(disconnect.distance_m, "m")} away`}, ${or(disconnect.rated_v, "V")}, ${or(disconnect.rated_a, "A")}, ${flagWords(disconnect.load_break, "load-break", "NOT LOAD-BREAK")}`
        : "none",
    ],
    ["Output", wireWords(kind.output) + (kind.parallel > 1 ? `, ${kind.parallel} in parallel` : "")],
    [
      "Source circuits",
      kind.source ? wireWords(kind.source) : kind.groups.length > 1 ? "differ by circuit" : "not stated",
    ],
    ["Grounding", kind.egc ? wireWords(kind.egc) : "not stated"],
    ["Feeds", kind.feeds],
    ["Box type", kind.type],
    ["Sheet", box.sheet],
    ["Place", box.location],
    ["Chosen for", box.why],
  ];
  return facts.filter(([, value]) => value);
}

// What the label with the numbers should say.
function labelFacts(id) {
  const { posted, groups } = kindOf(id);
  const bySeries = new Map();
  for (const { series, strings } of groups) bySeries.set(series, (bySeries.get(series) ?? 0) + strings);
  return (
    [
      `Should say: ${plain(id)}`,
      [...bySeries].map(([series, strings]) => `${strings} ${strings === 1 ? "string" : "strings"} of ${series}`).join(" and "),
      `maximum ${posted.max_v_label ?? "?"} V, ${posted.max_a_label ?? "?"} A`,
      posted.fuse_a === undefined ? "" : `fuses ${posted.fuse_a} A`,
    ]
      .filter(Boolean)
      .join("; ") + "."
  );
}
