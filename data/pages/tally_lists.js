"use strict";
// Parts of a box of which there can be several: conditions seen, unlike fuses, labels, strings.

// Redraws one part in place, and keeps the focus where it was.
function redrawn(build) {
  const host = make("div", { class: "rows" });
  const draw = (focus) => {
    const active = focus ?? (host.contains(document.activeElement) ? document.activeElement.id : "");
    host.replaceChildren(...build(draw).filter(Boolean));
    if (active) document.getElementById(active)?.focus();
  };
  draw();
  return host;
}

function dropDrafts(id, key) {
  for (const name of Object.keys(draftsOf(id))) if (name.startsWith(`${key}.`)) setDraft(id, name, undefined);
  saveDrafts(id);
}

// A list of the record without some entries; the drafts of its fields go with them.
function dropEntries(id, key, isOut, what) {
  const left = (at(recordOf(id), [key]) ?? []).filter((entry, i) => !isOut(entry, i));
  dropDrafts(id, key);
  change(id, [key], left.length === 0 && key !== "labels" ? undefined : left, { what });
}
const dropEntry = (id, key, index, what) => dropEntries(id, key, (entry, i) => i === index, what);
function addEntry(id, key, entry, what) {
  const entries = copy(at(recordOf(id), [key]) ?? []);
  change(id, [key], [...entries, entry], { what });
  return entries.length;
}
const entriesOf = (id, key) => at(recordOf(id), [key]) ?? [];

// A tick that says that somebody looked and there was none: an empty list. It and the list's entries turn each
// other off; where neither is there, nothing is said.
function lookedTick(id, key, words, entries) {
  const says = () => at(recordOf(id), [key])?.length === 0;
  const tick = make("input", { type: "checkbox", id: `looked-${key}`, "data-looked": key, ".checked": says() });
  tick.addEventListener("change", async () => {
    const found = entriesOf(id, key).length;
    if (tick.checked && found > 0) {
      tick.checked = false;
      if (
        (await ask(
          `${words}?`,
          [`${found} ${found === 1 ? "entry" : "entries"} of ${entries} would go. Undo brings them back.`],
          [
            ["yes", "Take them out", "danger"],
            ["", "Keep them"],
          ],
        )) !== "yes"
      )
        return;
      dropDrafts(id, key);
      change(id, [key], [], { what: words });
      redrawBox();
      document.getElementById(tick.id)?.focus();
      return;
    }
    change(id, [key], tick.checked ? [] : undefined, { what: words });
    refreshBox();
  });
  return make("label", { class: "tick looked", for: tick.id }, tick, make("span", {}, words));
}
function refreshLooked() {
  for (const tick of pane.querySelectorAll("[data-looked]"))
    tick.checked = at(recordOf(current), [tick.dataset.looked])?.length === 0;
}

// The conditions: a tick each, its particulars below it once it is ticked.
function conditionParts(id) {
  return [
    lookedTick(id, "seen", "Looked: nothing of this seen", "conditions"),
    ...plan.conditions.map(({ heading, words }) =>
      make(
        "fieldset",
        { class: "conditions" },
        make("legend", {}, heading),
        words.map(([word, title]) => condition(id, word, title)),
      ),
    ),
  ];
}

function condition(id, word, title) {
  const here = () =>
    entriesOf(id, "seen")
      .map((entry, i) => [entry, i])
      .filter(([entry]) => entry.what === word);
  return redrawn((draw) => {
    const found = here();
    const tick = make("input", {
      type: "checkbox",
      id: `c-${word}`,
      "data-condition": word,
      ".checked": found.length > 0,
    });
    tick.addEventListener("change", async () => {
      if (tick.checked) {
        addEntry(id, "seen", { what: word }, title);
      } else {
        const told = here().some(([entry]) => Object.keys(entry).length > 1);
        tick.checked = true;
        if (
          told &&
          (await ask(
            "Take this out?",
            [`“${title}”: what is written about it goes too. Undo brings it back.`],
            [
              ["yes", "Take it out", "danger"],
              ["", "Keep it"],
            ],
          )) !== "yes"
        )
          return;
        dropEntries(id, "seen", (entry) => entry.what === word, title);
      }
      draw(tick.id);
      refreshBox();
    });
    return [
      make("label", { class: "tick", for: tick.id }, tick, make("span", {}, title)),
      ...found.map(([, i]) => conditionCard(id, i, word, title, found.length, draw)),
    ];
  });
}

function conditionCard(id, index, word, title, several, draw) {
  const part = (label, key, hint) =>
    field(label, bound(id, ["seen", index, key], undefined, title), { hint, prefix: "c" });
  return make(
    "div",
    { class: "card" },
    part("Where", "where"),
    part("How it came so", "origin", "Manufacture: like parts on this site are concerned too."),
    part("Photo, file name", "photo"),
    part("Note", "note"),
    make(
      "div",
      { class: "row" },
      button("Seen at another place too", () => {
        addEntry(id, "seen", { what: word }, title);
        draw(`c-${word}`);
        refreshBox();
      }),
      several > 1
        ? button("Take this one out", () => {
            dropEntry(id, "seen", index, title);
            draw(`c-${word}`);
            redrawBox();
          })
        : "",
    ),
  );
}

// Fuses that are not like the rest.
function unlikeFuses(id) {
  return redrawn((draw) => [
    lookedTick(id, "mixed_fuses", "Looked: all fuses alike", "unlike fuses"),
    ...entriesOf(id, "mixed_fuses").map((entry, i) =>
      make(
        "div",
        { class: "card pair" },
        field("At input", bound(id, ["mixed_fuses", i, "position"], undefined, "unlike fuse")),
        field("Rated current", bound(id, ["mixed_fuses", i, "a"], undefined, "unlike fuse")),
        button(
          "Take out",
          () => {
            dropEntry(id, "mixed_fuses", i, "unlike fuse");
            draw("add-fuse");
            refreshBox();
          },
          { "aria-label": `Take out unlike fuse ${i + 1}` },
        ),
      ),
    ),
    button(
      "Add a fuse that is unlike the rest",
      () => {
        const i = addEntry(id, "mixed_fuses", {}, "unlike fuse");
        draw(`f-mixed_fuses-${i}-position`);
        refreshBox();
      },
      { id: "add-fuse" },
    ),
  ]);
}

// Labels besides the one with the numbers. A list of them says that there are no others: it is made only where
// somebody says that all were looked at.
const labelValues = { max_v: "V", max_a: "A", isc_a: "A", vmp_v: "V", imp_a: "A" };
const labelValueNames = {
  max_v: "Maximum voltage",
  max_a: "Maximum current",
  isc_a: "Short-circuit current",
  vmp_v: "Operating voltage",
  imp_a: "Operating current",
};

function labelsFound(id, kind) {
  return redrawn((draw) => {
    const entries = at(recordOf(id), ["labels"]);
    const all = make("input", { type: "checkbox", id: "labels-all", ".checked": entries !== undefined });
    all.addEventListener("change", async () => {
      if (!all.checked && entriesOf(id, "labels").length > 0) {
        all.checked = true;
        if (
          (await ask(
            "Take out the list of labels?",
            ["The labels entered here go. Undo brings them back."],
            [
              ["yes", "Take it out", "danger"],
              ["", "Keep it"],
            ],
          )) !== "yes"
        )
          return;
        all.checked = false;
      }
      change(id, ["labels"], all.checked ? entriesOf(id, "labels") : undefined, { what: "list of labels" });
      draw("labels-all");
      refreshBox();
    });
    const choose = make(
      "select",
      {
        id: "add-label",
        onchange: () => {
          if (choose.value === "") return;
          addEntry(id, "labels", { kind: choose.value }, "label");
          draw("add-label");
          refreshBox();
        },
      },
      make("option", { value: "" }, "choose its kind"),
      plan.label_kinds.map((word) => make("option", { value: word }, wordName(word))),
    );
    return [
      make(
        "label",
        { class: "tick", for: "labels-all" },
        all,
        make("span", {}, "I looked at all labels of this box"),
      ),
      make(
        "p",
        { class: "hint" },
        "A list says that these are all the labels there are; an empty one, that there are none. Without the tick nothing is said of them.",
      ),
      entries?.length === 0
        ? make(
            "p",
            { class: "should", id: "labels-none" },
            "Looked: no labels on the box. Add those that are there.",
          )
        : "",
      kind ? make("p", { class: "plan" }, `plan: ${kind.labels.map(wordName).join(", ") || "none"}`) : "",
      ...(entries ?? []).map((entry, i) => labelCard(id, entry, i, draw)),
      entries === undefined
        ? ""
        : make("div", { class: "field" }, make("label", { for: "add-label" }, "Add a label"), choose),
    ];
  });
}

function labelCard(id, entry, index, draw) {
  const states = ["max-voltage", "dc-power-source"].includes(entry.kind) || entry.values !== undefined;
  const others = Object.entries(entry.values ?? {}).filter(
    ([key, value]) => !own(labelValues, key) || typeof value !== "number",
  );
  const value = (key) =>
    field(
      labelValueNames[key],
      bound(id, ["labels", index, "values", key], notNegative(labelValues[key]), "label"),
    );
  return make(
    "div",
    { class: "card" },
    make("b", {}, wordName(entry.kind)),
    field("Can be read", bound(id, ["labels", index, "legible"], undefined, "label")),
    states
      ? make(
          "div",
          { class: "fields" },
          Object.keys(labelValues)
            .filter((key) => !others.some(([other]) => other === key))
            .map(value),
        )
      : "",
    others.length > 0
      ? make(
          "p",
          { class: "hint" },
          `It also states ${others.map(([key, text]) => `${plain(key)}: ${plain(text)}`).join(", ")}.`,
        )
      : "",
    button("Take out", () => {
      dropEntry(id, "labels", index, "label");
      draw("add-label");
      refreshBox();
    }),
  );
}

// Modules in series: one number, or one a string from the first on without a gap.
function seriesField(id, kind) {
  const path = ["count", "series"];
  const place = { ...bound(id, path, fromOne, "modules in series") };
  const planText = kind ? [...new Set(kind.groups.map((group) => group.series))].join(" and ") : undefined;
  const planHas = kind ? { text: planText, differs: (value) => seriesDiffers(value, kind) } : undefined;
  return redrawn((draw) => {
    const stored = place.read();
    const each = Array.isArray(stored) || draftsOf(id)["count.series.each"] !== undefined || eachChosen === id;
    const mode = (value, words, i) =>
      make(
        "label",
        {},
        make("input", {
          type: "radio",
          name: "series-mode",
          id: `series-mode-${i}`,
          ".checked": each === value,
          onchange: async () => {
            const listed = Array.isArray(place.read()) || draftsOf(id)["count.series.each"] !== undefined;
            if (!value && listed) {
              draw(`series-mode-${i}`);
              if (
                (await ask(
                  "One number for all strings?",
                  ["The numbers of the single strings go. Undo brings them back."],
                  [
                    ["yes", "One number", "danger"],
                    ["", "Keep them"],
                  ],
                )) !== "yes"
              )
                return;
              change(id, path, undefined, { what: "modules in series", name: "count.series.each" });
            }
            eachChosen = value ? id : null;
            draw(`series-mode-${i}`);
          },
        }),
        make("span", {}, words),
      );
    return [
      make(
        "div",
        { class: "segments", role: "radiogroup", "aria-label": "Modules in series" },
        mode(false, "all strings alike", 0),
        mode(true, "string by string", 1),
      ),
      each
        ? eachString(id, kind, path, planHas)
        : field("Modules in series, all strings", place, { planned: planHas }),
    ];
  });
}
let eachChosen = null; // the box whose strings are to be counted one by one

function eachString(id, kind, path, planHas) {
  const draftName = "count.series.each";
  const stored = at(recordOf(id), path);
  const written = draftsOf(id)[draftName]?.split(";") ?? (Array.isArray(stored) ? stored.map(String) : []);
  const positions = Math.min(
    1000,
    Math.max(kind ? kind.strings : 0, written.length, at(recordOf(id), ["count", "positive"]) ?? 0, 1),
  );
  const problem = make("p", { class: "wrong", role: "alert" });
  const plans = make("p", { class: "plan" });
  const inputs = [];
  const judge = () => {
    const raw = inputs.map((input) => input.value);
    while (raw.length > 0 && raw[raw.length - 1].trim() === "") raw.pop();
    const parsed = raw.map((one) => toNumber(one, fromOne));
    const gap = parsed.findIndex((one) => one.value === undefined);
    const said =
      gap < 0
        ? ""
        : parsed[gap].problem
          ? `String ${gap + 1}: ${parsed[gap].problem}.`
          : `String ${gap + 1} is empty.`;
    return { raw, said, value: raw.length === 0 || gap >= 0 ? undefined : parsed.map((one) => one.value) };
  };
  const show = () => {
    const { said, value } = judge();
    problem.textContent =
      said && `${said} The list runs from string 1 without a gap; until then it is not exported.`;
    plans.textContent = planHas
      ? `plan: ${planHas.text}${value !== undefined && planHas.differs(value) ? " – differs" : ""}`
      : "";
  };
  for (let n = 1; n <= positions; ++n) {
    inputs.push(
      make("input", {
        id: `series-${n}`,
        type: "text",
        inputmode: "numeric",
        autocomplete: "off",
        "aria-label": `Modules in series, string ${n}`,
        ".value": written[n - 1] ?? "",
        oninput: () => {
          const { raw, said, value } = judge();
          change(id, path, value, {
            what: "modules in series",
            typing: true,
            name: draftName,
            draft: said ? raw.join(";") : undefined,
          });
        },
        onchange: show,
      }),
    );
  }
  show();
  return make(
    "div",
    {},
    make(
      "div",
      { class: "strings" },
      inputs.map((input, i) => make("label", {}, make("span", {}, `${i + 1}`), input)),
    ),
    plans,
    problem,
  );
}

// Readings, a row a string. An entry of the record stands in the row of its position.
function measuredRows(id, kind) {
  const path = ["measured", "strings"];
  const rows = () => at(recordOf(id), path) ?? [];
  const positions = new Set(
    rows()
      .map((row) => row.position)
      .filter((position) => position !== undefined),
  );
  for (let n = 1; n <= Math.min(1000, kind ? kind.strings : 1); ++n) positions.add(n);
  const keys = [
    ["voc_v", "Voc"],
    ["isc_a", "Isc"],
    ["insulation_mohm", "Insulation"],
    ["reversed", "Swapped"],
  ];
  const cell = (position, key, label) => {
    const name = `measured.strings@${position}.${key}`;
    const entry = () => rows().find((row) => row.position === position);
    return field(
      label,
      {
        shape: shapeAt(["measured", "strings", 0, key]),
        name,
        read: () => entry()?.[key],
        draft: () => draftsOf(id)[name],
        write: (value, more = {}) => {
          const others = copy(rows());
          let row = others.find((one) => one.position === position);
          if (row === undefined) {
            row = { position };
            const after = others.findIndex((one) => one.position > position);
            others.splice(after < 0 ? others.length : after, 0, row);
          }
          put(row, [key], value);
          const left = others.filter((one) => one !== row || Object.keys(row).length > 1);
          change(id, path, left.length > 0 ? left : undefined, {
            what: `readings of string ${position}`,
            name,
            ...more,
          });
        },
      },
      { small: true },
    );
  };
  return redrawn((draw) => [
    make(
      "p",
      { class: "hint" },
      "Voc: open-circuit voltage. Isc: short-circuit current. Insulation: resistance to ground. Swapped: the poles are.",
    ),
    ...[...positions]
      .sort((a, b) => a - b)
      .map((position) =>
        make(
          "fieldset",
          { class: "reading" },
          make("legend", {}, `String ${position}`),
          keys.map(([key, label]) => cell(position, key, label)),
        ),
      ),
    button(
      "Add a string",
      () => {
        positions.add(Math.max(0, ...positions) + 1);
        draw("add-string");
      },
      { id: "add-string" },
    ),
    rows().some((row) => row.position === undefined)
      ? make(
          "p",
          { class: "hint" },
          "Readings without a position came with a loaded record; they are kept and exported as they are.",
        )
      : "",
  ]);
}
