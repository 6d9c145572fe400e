"use strict";
// One box: three counters first, then its label, then everything else, folded.

const pane = document.getElementById("box-pane");
let current = null; // the id of the box that is shown
let parts = []; // its foldable parts
let unsettled = null; // the counter that is being tapped: its difference is not told yet

const countPath = (which) => ["count", which];

// A counter: +1 over a large area, -1, a number to type, and back to "not counted".
function counter(id, which, name) {
  const kind = kindOf(id);
  const read = () => at(recordOf(id), countPath(which));
  const place = bound(id, countPath(which), undefined, name.toLowerCase());
  const right = kind ? plannedCounts(kind, which) : [];
  const now = make("span", { class: "now" });
  const add = button([now, make("span", { class: "plus" })], () => step(1), {
    "data-count": which,
    class: "add",
  });
  const take = button("−1", () => step(-1), { "data-take": which, class: "take" });
  const input = make("input", {
    id: `n-${which}`,
    type: "text",
    inputmode: "numeric",
    autocomplete: "off",
    "data-number": which,
    "aria-label": `${name}: type the count`,
    "aria-describedby": `d-${which}`,
    placeholder: "type",
  });
  const reset = button(
    "",
    () => {
      settleOthers();
      const before = read();
      place.write(before === undefined ? 0 : undefined);
      settled = true;
      show();
      if (before !== undefined)
        showBar("cleared", `${name} cleared; ${before === 1 ? "it was" : "they were"} ${before}.`, {
          fades: true,
          buttons: [undoButton()],
        });
      say(read() === undefined ? `${name} not counted` : `${name} ${read()}`);
    },
    { class: "reset", "data-clear": which },
  );
  const said = make("p", { class: "difference", id: `d-${which}`, role: "status" });
  let settled = true;

  const show = (typing = false) => {
    const value = read();
    const draft = place.draft();
    const problem = draft === undefined ? "" : (toNumber(draft, count).problem ?? "");
    now.textContent = value === undefined ? "" : String(value);
    now.classList.toggle("unset", value === undefined);
    now.classList.toggle("long", value > 9999);
    add.setAttribute(
      "aria-label",
      `${name}: add one, ${value === undefined ? "not counted yet" : `now ${value}`}`,
    );
    take.setAttribute("aria-label", `${name}: −1, take one away`);
    take.setAttribute("aria-disabled", value === undefined || value === 0 ? "true" : "false");
    if (!typing) input.value = draft ?? (value === undefined ? "" : String(value));
    input.setAttribute("aria-invalid", problem && settled ? "true" : "false");
    reset.textContent = value === undefined ? "0" : "clear";
    reset.setAttribute(
      "aria-label",
      value === undefined ? `${name}: 0, none there` : `${name}: clear, not counted`,
    );
    const words = problem ? `${problem}. Not counted.` : countDiffers(value, kind, which);
    said.textContent = settled ? words : "";
    said.classList.toggle("wrong", settled && problem !== "");
  };
  // Called when the inspector turns to something else, or has typed.
  const settle = () => {
    settled = true;
    show();
  };
  const settleOthers = () => {
    if (unsettled !== null && unsettled.element !== element) unsettled.settle();
    unsettled = { element, settle };
  };
  const step = (by) => {
    settleOthers();
    const value = read();
    if (by < 0 && (value === undefined || value === 0)) return;
    settled = false;
    place.write((value ?? 0) + by);
    show();
    say(`${name} ${read()}`);
    if (by > 0) navigator.vibrate?.(12);
  };
  input.addEventListener("input", () => {
    settleOthers();
    settled = false;
    const { value, problem } = toNumber(input.value, count);
    place.write(value, { typing: true, draft: problem ? input.value : undefined });
    show(true);
  });
  input.addEventListener("change", settle);

  const element = make(
    "div",
    { class: "counter", role: "group", "aria-label": name },
    make(
      "div",
      { class: "counter-head" },
      make("b", {}, name),
      make(
        "span",
        { class: "plan" },
        kind
          ? `plan ${which === "fuses" && kind.fuses.length === 0 ? "none" : right.join(" or ")}`
          : "not on the plan",
      ),
    ),
    add,
    make("div", { class: "counter-foot" }, take, input, reset),
    said,
  );
  show();
  return element;
}

// Whoever touches anything outside a counter has left it.
function leaveCounter(event) {
  if (unsettled === null || unsettled.element.contains(event.target)) return;
  const { settle } = unsettled;
  unsettled = null;
  settle();
}
document.addEventListener("pointerdown", leaveCounter);
document.addEventListener("focusin", leaveCounter);

// Fields of one part of the record.
function fieldsOf(id, part, names, hints = {}) {
  const kind = kindOf(id);
  return make(
    "div",
    { class: "fields" },
    Object.entries(names).map(([key, label]) => {
      const path = [part, key];
      const planHas =
        part === "posted" && key === "id" && kind !== null
          ? { text: plain(id), differs: (value) => value !== id }
          : plannedAt(kind, path);
      return field(label, bound(id, path, undefined, `${part}, ${label.toLowerCase()}`), {
        planned: planHas,
        hint: hints[key],
      });
    }),
  );
}

// How many values a part of the record holds.
function valuesIn(value) {
  if (value === undefined) return 0;
  if (Array.isArray(value)) return Math.max(value.length, 1); // an empty one says that there are none
  return isObject(value)
    ? Object.values(value).reduce(
        (sum, one) => sum + (Array.isArray(one) && one.every(isObject) ? one.length : 1),
        0,
      )
    : 1;
}
const filledIn =
  (id, ...keys) =>
  () =>
    keys.reduce((sum, key) => sum + valuesIn(recordOf(id)[key]), 0);

const conductorNames = {
  size: "Size",
  material: "Material",
  stranding: "Stranding",
  insulation: "Insulation, as printed on it",
};

function boxParts(id) {
  const kind = kindOf(id);
  const seriesFilled = () =>
    ["series", "modules"].filter((key) => at(recordOf(id), ["count", key]) !== undefined).length;
  const subheading = (words) => make("h4", {}, words);
  return [
    section("series", "Modules in series", seriesFilled, () => [
      seriesField(id, kind),
      fieldsOf(id, "count", { modules: "Modules on this box" }),
    ]),
    section("seen", "Conditions seen", filledIn(id, "seen"), () => conditionParts(id)),
    section("fuse", "Fuses as found", filledIn(id, "fuse", "mixed_fuses"), () => [
      fieldsOf(id, "fuse", {
        a: "Rated current",
        v: "Rated voltage",
        dc: "Marked for DC",
        pv_listed: "Marked as listed for PV",
        poles: "Fuses in",
      }),
      subheading("Fuses unlike the rest"),
      unlikeFuses(id),
    ]),
    section("enclosure", "Box and disconnect", filledIn(id, "enclosure", "disconnect"), () => [
      fieldsOf(id, "enclosure", {
        type: "Type on the nameplate",
        listed: "Listing mark",
        cover: "Lid faces",
        secured: "Cover secured",
        gasket_seated: "Gasket seated",
        air_gap_mm: "Air space behind it",
      }),
      subheading("Disconnect"),
      fieldsOf(
        id,
        "disconnect",
        {
          present: "There is one",
          works: "Handle moves and indicates",
          load_break: "May be opened under load",
          rated_v: "Rated voltage",
          rated_a: "Rated current",
          distance_m: "Distance from the box",
        },
        { distance_m: "0: in the box" },
      ),
    ]),
    section("wire", "Conductors", filledIn(id, "output", "source", "egc"), () => [
      subheading("Output"),
      fieldsOf(id, "output", {
        ...conductorNames,
        antioxidant: "Oxide inhibitor on aluminum",
        lug_for_fine_strand: "Terminals identified for fine strands",
      }),
      subheading("Source circuits"),
      fieldsOf(id, "source", conductorNames),
      subheading("Equipment grounding conductor"),
      fieldsOf(id, "egc", { size: "Size", material: "Material" }),
    ]),
    section("labels", "Other labels", filledIn(id, "labels"), () => [labelsFound(id, kind)]),
    section("measured", "Measurements", filledIn(id, "measured"), () => [
      fieldsOf(
        id,
        "measured",
        {
          irradiance_w_m2: "Irradiance in the plane of the array",
          cell_c: "Cell temperature",
          tolerance_pct: "Tolerance of a voltage reading",
        },
        { tolerance_pct: "2 % where nothing is entered" },
      ),
      measuredRows(id, kind),
    ]),
    section("note", "Note on this box", filledIn(id, "note"), () => [noteField(id)]),
  ];
}

// A note may be any value in a loaded record; only text is shown for changing.
function noteField(id) {
  const stored = recordOf(id).note;
  if (stored !== undefined && typeof stored !== "string")
    return make("p", { class: "hint" }, "This box came with a note that is no text; it is kept as it is.");
  const area = make("textarea", {
    id: "f-note",
    rows: "4",
    "aria-label": "Note on this box",
    ".value": stored ?? "",
  });
  area.addEventListener("input", () =>
    change(id, ["note"], area.value.trim() === "" ? undefined : area.value, { what: "note", typing: true }),
  );
  return area;
}

function planPart(id) {
  const kind = kindOf(id);
  if (kind === null)
    return make(
      "p",
      { class: "off-plan" },
      "This box is not on the plan. Count what is there; the check will report it.",
    );
  const details = make(
    "details",
    { class: "part plan-part", "data-part": "plan", ".open": planOpen },
    make("summary", {}, "The plan says"),
    make(
      "dl",
      { class: "facts" },
      planFacts(id).flatMap(([name, value]) => [make("dt", {}, name), make("dd", { class: "isolate" }, value)]),
    ),
  );
  details.addEventListener("toggle", () => {
    planOpen = details.open;
  });
  return details;
}
let planOpen = window.matchMedia("(min-width: 40rem)").matches;

// Shows a box. `focus`: the heading gets it, as after a tap on a row.
function showBox(id, focus = true) {
  unsettled?.settle();
  unsettled = null;
  current = id;
  parts = boxParts(id);
  const box = planned.get(id);
  const kind = kindOf(id);
  const summary = kind
    ? kind.groups.map((group) => `${group.strings} × ${group.series}`).join(" + ")
    : "not on the plan";
  const label = make(
    "section",
    { class: "part posted" },
    make("h3", {}, "What the label on the box says"),
    kind ? make("p", { class: "should" }, labelFacts(id)) : "",
    fieldsOf(id, "posted", {
      id: "Box",
      strings: "Strings",
      series: "Modules in series",
      max_v: "Maximum voltage",
      max_a: "Maximum current",
      fuse_a: "Fuses",
    }),
  );
  pane.replaceChildren(
    make(
      "header",
      { class: `bar-top ${sizeClass(id)}` },
      button("Boxes", leaveBox, { class: "to-list", id: "to-list" }),
      button("‹", () => neighbour(-1), { id: "previous", "aria-label": "Previous box" }),
      make(
        "h2",
        { id: "box-name", tabindex: "-1" },
        nameElement("span", id),
        " ",
        make("span", { class: "state", id: "box-state" }),
      ),
      button("›", () => neighbour(1), { id: "next", "aria-label": "Next box" }),
    ),
    make("p", { class: "hint", id: "box-left" }),
    make("p", { class: "live-short" }, "Energised with its switch open."),
    make(
      "p",
      { class: "where isolate" },
      [
        box?.sheet && ["sheet ", nameElement("span", box.sheet)],
        box?.location,
        kind && `${summary} modules`,
        kind && ["feeds ", nameElement("span", kind.feeds)],
        box?.why && `chosen: ${box.why}`,
      ]
        .filter(Boolean)
        .flatMap((words, i) => [i > 0 ? " · " : "", words].flat()),
    ),
    ...againPart(id),
    make(
      "div",
      { class: "counters" },
      counters.map(([which, name]) => counter(id, which, name)),
    ),
    label,
    planPart(id),
    ...parts,
    make(
      "div",
      { class: "row end" },
      button("Clear this box", () => clearBox(id), { class: "danger", id: "clear-box" }),
      button("Next box ›", () => neighbour(1), { class: "strong" }),
    ),
  );
  refreshBox();
  document.body.dataset.view = "box";
  if (focus) {
    document.getElementById("box-name").focus({ preventScroll: true });
    pane.scrollIntoView({ block: "start", behavior: "instant" });
  }
}

// The same box anew, after a change from elsewhere: focus and place stay.
function redrawBox() {
  if (current === null) return;
  const focused = pane.contains(document.activeElement) ? document.activeElement.id : "";
  const { scrollX, scrollY } = window;
  showBox(current, false);
  if (focused) document.getElementById(focused)?.focus({ preventScroll: true });
  window.scrollTo(scrollX, scrollY);
}

// What the head of the box and of its parts say, after a change in a field.
function refreshBox() {
  for (const part of parts) part.refresh();
  refreshLooked();
  refreshAgain();
  const state = document.getElementById("box-state");
  if (state === null) return;
  state.dataset.state = stateOf(current);
  state.textContent = stateText(current);
  const left = notLookedAt(current);
  document.getElementById("box-left").textContent = left && `${left[0].toUpperCase()}${left.slice(1)}.`;
}

async function clearBox(id) {
  const answer = await ask(
    `Clear ${plain(id)}?`,
    ["Everything entered for this box goes. Undo brings it back."],
    [
      ["yes", "Clear this box", "danger"],
      ["", "Keep it"],
    ],
  );
  if (answer !== "yes") return;
  changeWhole(new Map([[id, undefined]]), `clearing ${plain(id)}`);
  showBar("cleared", `${plain(id)} is cleared.`, { fades: true, buttons: [undoButton()] });
}
