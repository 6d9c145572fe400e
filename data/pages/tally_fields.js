"use strict";
// Fields of a form, made from the format: each shows what the plan has, and says beside itself what is wrong.

// An element with attributes, properties (.name), listeners (onname) and children; texts stay texts.
function make(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === false || value === null) continue;
    if (name.startsWith(".")) element[name.slice(1)] = value;
    else if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else element.setAttribute(name, value === true ? "" : value);
  }
  element.append(...children.flat().filter((child) => child !== undefined && child !== null && child !== ""));
  return element;
}
const button = (words, onclick, attributes = {}) =>
  make("button", { type: "button", onclick, ...attributes }, words);

// A name out of a file: a short one stands whole on its line.
const lengthOf = (name) => [...plain(name)].length;
const sizeClass = (name) => (lengthOf(name) <= 9 ? "short" : lengthOf(name) <= 20 ? "short wide" : "long wide");
const nameElement = (tag, name) => make(tag, { class: `isolate ${sizeClass(name)}` }, plain(name));
// In a list, of a very long one its beginning and its end; whole to a pointer and to a screen reader.
function listedName(tag, name) {
  const [points, begin, end] = [[...plain(name)], 36, 24];
  if (points.length <= begin + end) return nameElement(tag, name);
  const ends = `${points.slice(0, begin).join("")}…${points.slice(-end).join("")}`;
  return make(
    tag,
    { class: "isolate long wide", title: plain(name) },
    make("span", { "aria-hidden": "true" }, ends),
    make("span", { class: "unseen" }, plain(name)),
  );
}

const wordNames = {
  one: "one pole",
  both: "both poles",
  side: "to the side",
  up: "to the sky",
  first: "first visit",
  again: "again, after corrections",
};
const wordName = (word) => wordNames[word] ?? word.replaceAll("-", " ");
const yesNo = (value) => (value === true ? "yes" : value === false ? "no" : String(value));
const withUnit = (value, unit) => (unit ? `${value} ${unit}` : `${value}`);

// Where a value of a record is kept: reads, writes, and what was typed in its place and is none.
function bound(id, path, shape = shapeAt(path), what = "") {
  const name = path.join(".");
  return {
    shape,
    name,
    read: () => at(recordOf(id), path),
    draft: () => draftsOf(id)[name],
    write: (value, more = {}) => change(id, path, value, { what, ...more }),
  };
}

let fieldNumber = 0;
const fieldId = (place, prefix) => `${prefix}-${place.name.replace(/[^\w-]/g, "-") || (fieldNumber += 1)}`;

// `planned`: { text, differs(value) }; `hint`: a line under the label; `small`: a choice that takes little room.
function field(label, place, { planned, hint, prefix = "f", small = false } = {}) {
  const { shape } = place;
  const parts = { id: fieldId(place, prefix), label, place, planned, hint };
  if (shape.type === "flag" && small)
    return selectField(parts, [
      [true, "yes"],
      [false, "no"],
    ]);
  if (shape.type === "flag")
    return choiceField(parts, [
      [true, "yes"],
      [false, "no"],
    ]);
  if (shape.type === "word" && shape.words.length <= 3)
    return choiceField(
      parts,
      shape.words.map((word) => [word, wordName(word)]),
    );
  if (shape.type === "word")
    return selectField(
      parts,
      shape.words.map((word) => [word, wordName(word)]),
    );
  if (shape.usual !== undefined)
    return selectField(
      parts,
      shape.usual.map((word) => [word, word]),
    );
  return typedField(parts);
}

// The line under a field: the plan's value, and that it differs, or what is wrong.
function remark({ id, planned, hint }) {
  const plans = make("p", { class: "plan", id: `${id}-plan` }, planned ? `plan: ${planned.text}` : "");
  const problem = make("p", { class: "wrong", id: `${id}-wrong`, role: "alert" });
  const show = (value, said) => {
    const differs = planned !== undefined && value !== undefined && planned.differs(value);
    plans.textContent = planned ? `plan: ${planned.text}${differs ? " – differs" : ""}` : "";
    plans.classList.toggle("differs", differs);
    problem.textContent = said ?? "";
  };
  return { lines: [hint ? make("p", { class: "hint", id: `${id}-hint` }, hint) : "", plans, problem], show };
}

function typedField(parts) {
  const { id, label, place } = parts;
  const { shape } = place;
  const { lines, show } = remark(parts);
  const isNumber = shape.type === "number";
  const parse = (raw) => {
    if (isNumber) return toNumber(raw, shape);
    const value = raw.trim();
    if (value === "") return {};
    const problem = wrong(value, shape);
    return problem ? { problem } : { value };
  };
  const stored = place.read();
  const input = make("input", {
    id,
    type: shape.type === "day" ? "date" : "text",
    autocomplete: "off",
    spellcheck: "false",
    inputmode: isNumber ? (shape.whole ? "numeric" : shape.least < 0 ? "text" : "decimal") : undefined,
    "aria-describedby": `${id}-plan ${id}-wrong${parts.hint ? ` ${id}-hint` : ""}`,
    ".value": place.draft() ?? (stored === undefined ? "" : String(stored)),
  });
  const judge = () => {
    const { value, problem } = parse(input.value);
    input.setAttribute("aria-invalid", problem ? "true" : "false");
    show(value, problem ? `${problem}. Not kept as a value, not exported.` : "");
  };
  input.addEventListener("input", () => {
    const { value, problem } = parse(input.value);
    place.write(value, { typing: true, draft: problem ? input.value : undefined });
    if (input.getAttribute("aria-invalid") === "true") judge();
  });
  input.addEventListener("change", judge);
  judge();
  return make(
    "div",
    { class: "field" },
    make("label", { for: id }, label, shape.unit ? make("span", { class: "unit" }, `, ${shape.unit}`) : ""),
    input,
    ...lines,
  );
}

function choiceField(parts, choices) {
  const { id, label, place } = parts;
  const { lines, show } = remark(parts);
  const mark = () => show(place.read());
  const option = (value, words, i) => {
    const input = make("input", {
      type: "radio",
      name: id,
      id: `${id}-${i}`,
      ".checked": place.read() === value,
      onchange: () => {
        place.write(value);
        mark();
      },
    });
    return make("label", { class: value === undefined ? "unset" : undefined }, input, make("span", {}, words));
  };
  const options = [...choices, [undefined, "not seen"]].map(([value, words], i) => option(value, words, i));
  mark();
  return make(
    "fieldset",
    { class: "field choice" },
    make("legend", {}, label),
    make("div", { class: "segments" }, options),
    ...lines,
  );
}

function selectField(parts, choices) {
  const { id, label, place } = parts;
  const { lines, show } = remark(parts);
  const stored = place.read();
  if (stored !== undefined && !choices.some(([value]) => value === stored))
    choices.push([stored, plain(stored)]);
  const select = make(
    "select",
    { id, "aria-describedby": `${id}-plan ${id}-wrong` },
    make("option", { value: "" }, "not seen"),
    choices.map(([value, words]) =>
      make("option", { value: String(value), ".selected": value === stored }, words),
    ),
  );
  select.addEventListener("change", () => {
    place.write(choices.find(([value]) => String(value) === select.value)?.[0]);
    show(place.read());
  });
  show(stored);
  return make("div", { class: "field" }, make("label", { for: id }, label), select, ...lines);
}

// A part of the form that folds, built when it is first opened; which parts are open holds for all boxes.
const unfolded = new Set();
function section(name, title, filled, build) {
  const body = make("div", { class: "body" });
  const number = make("span", { class: "filled" });
  const details = make(
    "details",
    { class: "part", "data-part": name, ".open": unfolded.has(name) },
    make("summary", {}, make("span", {}, title), number),
    body,
  );
  const refresh = () => {
    number.textContent = filled() > 0 ? `${filled()} entered` : "";
  };
  const fill = () => {
    if (details.open && body.childElementCount === 0) body.append(...build().filter(Boolean));
  };
  details.addEventListener("toggle", () => {
    if (details.open) unfolded.add(name);
    else unfolded.delete(name);
    fill();
  });
  fill();
  refresh();
  details.refresh = refresh;
  return details;
}

// Asks in a dialog; the answer is the chosen button's value, "" where it was closed.
function ask(title, content, buttons) {
  const dialog = document.getElementById("ask");
  const choices = buttons.map(([value, words, style]) =>
    button(words, () => dialog.close(value), { class: style, "data-answer": value || "cancel" }),
  );
  dialog.replaceChildren(
    make("h2", { id: "ask-title" }, title),
    ...content.map((part) => (typeof part === "string" ? make("p", {}, part) : part)),
    make("div", { class: "answers" }, choices),
  );
  dialog.returnValue = "";
  dialog.showModal();
  return new Promise((resolve) => {
    dialog.addEventListener("close", () => resolve(dialog.returnValue), { once: true });
  });
}

// Says something to a screen reader once it has been quiet for a moment.
let saying;
function say(words, wait = 900) {
  clearTimeout(saying);
  saying = setTimeout(() => {
    document.getElementById("say").textContent = words;
  }, wait);
}
