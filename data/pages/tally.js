"use strict";
// The page put together: the visit, the bars, what answers to what.

// A bar over the page; one of a name at a time. `fades`: it may be closed, and goes with the next one.
function showBar(name, words, { fades = false, buttons = [], alert = false } = {}) {
  const bars = document.getElementById("bars");
  document.getElementById(`bar-${name}`)?.remove();
  if (words === "") return;
  for (const old of bars.querySelectorAll(".fades")) old.remove();
  const bar = make(
    "div",
    {
      class: `bar${fades ? " fades" : ""}${alert ? " alert" : ""}`,
      id: `bar-${name}`,
      role: alert ? "alert" : "status",
    },
    make("p", {}, words),
    buttons,
  );
  if (fades) {
    bar.append(button("Close", () => bar.remove()));
    setTimeout(() => bar.remove(), 20000);
  }
  bars.append(bar);
}

function showStorageBar() {
  if (storage !== null && kept.unsaved.size === 0) return;
  if (document.getElementById("bar-storage") !== null) return;
  const words =
    storage === null
      ? "This browser keeps nothing: what you count is lost when the page is closed. Export before that."
      : "The browser's storage is full: what you count now is not kept. Export now.";
  showBar("storage", words, { alert: true, buttons: [button("Export", exportFile, { class: "strong" })] });
}

function showPlanBar() {
  if (kept.meta.stamp === plan.stamp) return;
  if (recordedIds().length === 0) return agreeToPlan();
  showBar(
    "plan",
    "The counts here were begun on another version of the plan. They are kept; look again where the plan's numbers matter.",
    {
      buttons: [
        button("Understood", () => {
          agreeToPlan();
          showBar("plan", "");
        }),
      ],
    },
  );
}
function agreeToPlan() {
  kept.meta.stamp = plan.stamp;
  saveMeta();
}

function buildVisit() {
  const place = (key, shape) => ({ ...bound(visitId, [key], shape, `visit, ${key}`) });
  const body = document.querySelector("#visit > div");
  const note = recordOf(visitId).note;
  const now = new Date();
  const today = `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, "0")}-${String(now.getDate()).padStart(2, "0")}`;
  body.replaceChildren(
    field("Date", place("date", visitShape.members.date), { prefix: "v" }),
    recordOf(visitId).date === undefined
      ? button(
          `Today, ${today}`,
          () => {
            change(visitId, ["date"], today, { what: "date" });
            buildVisit();
          },
          { id: "today" },
        )
      : "",
    field("By", place("by", text), { prefix: "v" }),
    field("Kind", place("kind", visitShape.members.kind), { prefix: "v" }),
    field("Weather", place("weather", text), { prefix: "v" }),
    note === undefined || typeof note === "string"
      ? field("Note", place("note", text), { prefix: "v" })
      : make("p", { class: "hint" }, "The visit came with a note that is no text; it is kept as it is."),
  );
}

function showVisit() {
  const { date, by, kind } = recordOf(visitId);
  const words = kind === "again" ? wordName(kind) : undefined;
  document.getElementById("visit-words").textContent = [date ?? "no date yet", by, words]
    .filter(Boolean)
    .map(plain)
    .join(", ");
}

function takeBack() {
  const step = undo();
  const words =
    step === undefined
      ? "Nothing to undo."
      : `Undone: ${step.what ?? "the last step"}${step.id ? `, box ${plain(step.id)}` : ""}.`;
  showBar("undone", words, { fades: true });
}
const undoButton = () => button("Undo", takeBack);

function showUndo() {
  const last = kept.steps[kept.steps.length - 1];
  const undoing = document.getElementById("undo");
  undoing.setAttribute("aria-disabled", last === undefined ? "true" : "false");
  undoing.setAttribute(
    "aria-label",
    last === undefined
      ? "Undo: nothing to undo"
      : `Undo ${last.what ?? ""}${last.id ? `, box ${plain(last.id)}` : ""}`,
  );
}

onChange((ids, about) => {
  if (about === "storage") return showStorageBar();
  const boxes = ids.filter((id) => id !== visitId);
  if (about === "whole" || boxes.some((id) => !rows.has(id))) buildList();
  else for (const id of boxes) refreshRow(id);
  if (about === "own") {
    if (boxes.includes(current)) refreshBox();
  } else {
    if (current !== null && !planned.has(current) && !kept.records.has(current)) closePane();
    else if (boxes.includes(current)) redrawBox();
    if (ids.includes(visitId)) buildVisit();
  }
  if (ids.includes(visitId)) showVisit();
  showUndo();
});

// The shown box is no longer there: an added one was cleared.
function closePane() {
  current = null;
  parts = [];
  emptyPane();
  buildList();
  window.location.hash = "#boxes";
}

function emptyPane() {
  pane.replaceChildren(
    make("p", { class: "empty", id: "box-name", tabindex: "-1" }, "Choose a box from the list."),
  );
}

// How much of the screen the bars take, so that nothing lies under them for good.
new ResizeObserver(() => {
  document.documentElement.style.setProperty("--bars", `${document.getElementById("bars").offsetHeight}px`);
}).observe(document.getElementById("bars"));

function start() {
  const listen = (id, action) => document.getElementById(id).addEventListener("click", action);
  listen("export", exportFile);
  listen("as-text", showText);
  listen("clear-all", clearAll);
  listen("print", () => window.print());
  listen("undo", takeBack);
  document.addEventListener("keydown", (event) => {
    const typing = event.target.closest?.("input, textarea, dialog") !== null;
    if ((event.ctrlKey || event.metaKey) && !event.shiftKey && event.key === "z" && !typing) takeBack();
  });
  listen("more", () => {
    const tools = document.getElementById("tools");
    tools.hidden = !tools.hidden;
    document.getElementById("more").setAttribute("aria-expanded", String(!tools.hidden));
  });
  const load = document.getElementById("load");
  load.addEventListener("change", async () => {
    const [file] = load.files;
    load.value = ""; // at once: the same file chosen again must be a change, however soon
    if (file !== undefined) await loadFile(file);
  });
  window.addEventListener("beforeunload", (event) => {
    if (!kept.meta.changed && kept.unsaved.size === 0) return;
    event.preventDefault();
    event.returnValue = true;
  });
  presetVisit();
  buildVisit();
  showVisit();
  emptyPane();
  document.body.dataset.view = "list";
  buildList();
  if (idInAddress() === null && window.location.hash !== "#boxes") {
    const last = storage?.getItem(placeKey) ?? null;
    if (last !== null && (planned.has(last) || kept.records.has(last)))
      window.history.replaceState(null, "", addressOf(last));
  }
  arrive(false);
  showStorageBar();
  showPlanBar();
  showUndo();
}
start();
