// Opens the examples as an editor does, with nothing but the repository, and looks at what it shows while somebody
// writes: what it offers, what it says of a key, and what it underlines. The editor is the JSON language service that
// several editors are built on; tests/schema/complete.sh fetches it.
//
// Usage: node complete.mjs SOURCE        SOURCE: the folder of the repository.
import { readFileSync, readdirSync } from "node:fs";
import { pathToFileURL } from "node:url";
import service from "vscode-json-languageservice";

const source = process.argv[2];
const editor = service.getLanguageService({
  schemaRequestService: async (uri) => readFileSync(new URL(uri), "utf8"),
  workspaceContext: { resolveRelativePath: (path, base) => new URL(path, base).href },
});

const words = (said) => [said ?? ""].flat().map((s) => (typeof s === "string" ? s : s.value)).join(" ");

// What the editor shows where the text has a |.
async function shown(example, text) {
  const cursor = text.indexOf("|");
  const document = service.TextDocument.create(
    pathToFileURL(`${source}/examples/${example}`).href, "json", 1, text.slice(0, cursor) + text.slice(cursor + 1));
  const json = editor.parseJSONDocument(document);
  const place = document.positionAt(cursor);
  const offered = (await editor.doComplete(document, place, json))?.items ?? [];
  return {
    hover: words((await editor.doHover(document, place, json))?.contents).replaceAll("\\", ""),
    offered: new Map(offered.map((item) => [item.label, words(item.documentation)])),
    underlined: (await editor.doValidation(document, json)).map((m) => document.getText(m.range)),
  };
}

let passed = 0, failed = 0;
function expect(what, holds, found) {
  if (holds) return void passed++;
  failed++;
  console.log(`${what}: found ${JSON.stringify(found)}`);
}

const read = (example) => readFileSync(`${source}/examples/${example}`, "utf8");
for (const example of readdirSync(`${source}/examples`).filter((name) => name.endsWith(".json"))) {
  if (!read(example).includes('"$schema"')) continue;
  const { underlined } = await shown(example, "|" + read(example));
  expect(`${example}: nothing is underlined`, underlined.length === 0, underlined);
}

// With one key or value more, at the beginning of the list or map.
const design = (list, text) => shown("saltmarsh.json", read("saltmarsh.json").replace(list, list + text));
const record = (text) => shown("saltmarsh-visit.json", read("saltmarsh-visit.json").replace('"boxes": [', '"boxes": [' + text));

for (const [what, at, keys] of [
  ["a module", await design('"modules": {', ' "X": { "|" },'), ["voc_v: volts", "isc_a: amperes", "pmax_w: watts"]],
  ["a box", await design('"combiners": [', ' { "id": "Z", "|" },'), ["type: box_types", "fuse: no fuses", "circuits: Groups"]],
  ["a run of a box", await design('"combiners": [', ' { "id": "Z", "output": { "run": { "|" } } },'),
    ["terminal_c: degrees Celsius", "length_m: metres", "above_roof_mm: millimetres"]],
  ["a visited box", await record(' { "id": "Z", "|" },'), ["count: counted", "seen: Conditions", "labels: found"]],
  ["a measurement", await record(' { "id": "Z", "measured": { "|" } },'),
    ["irradiance_w_m2: watts per square metre", "cell_c: degrees Celsius", "tolerance_pct: percent"]],
])
  for (const [key, word] of keys.map((k) => k.split(": ")))
    expect(`${what} is offered ${key}, told with "${word}"`, at.offered.get(key)?.includes(word), [...at.offered]);

for (const [what, at, values] of [
  ["an enclosure's type", await design('"combiners": [', ' { "id": "Z", "enclosure": { "type": | } },'), ['"3R"', '"4X"']],
  ["a terminal", await design('"combiners": [', ' { "id": "Z", "output": { "run": { "terminal_c": | } } },'), ["60", "75", "90"]],
  ["what was seen", await record(' { "id": "Z", "seen": [ { "what": | } ] },'), ['"burned-bus"', '"counterfeit-mark"']],
])
  for (const value of values) expect(`${what} is offered ${value}`, at.offered.has(value), [...at.offered.keys()]);

for (const [example, key, sentence] of [
  ["saltmarsh.json", "voc_v", "Open-circuit voltage, volts. Required."],
  ["saltmarsh.json", "low_c", "degrees Celsius"],
  ["saltmarsh.json", "site", "The site and its design temperatures. Required."],
  ["saltmarsh-visit.json", "max_v", "Maximum voltage that the label states, volts. Absent: not read."],
  ["saltmarsh-visit.json", "posted", "What the label on the box says"],
  ["saltmarsh-exceptions.json", "reason", "Why another method is accepted. Required."],
]) {
  const { hover } = await shown(example, read(example).replace(`"${key}"`, `"|${key}"`));
  expect(`${example}: hovering over ${key} says "${sentence}"`, hover.includes(sentence), hover);
}

const wrong = await design('"combiners": [',
  ' { "id": "Z", "type": "A16", "fuse": { "ambient_factor": 3, "dcc": true, "a": "20 A" }, "output": { "run": { "terminal_c": 70 } } }|,');
expect("what is wrong is underlined", wrong.underlined.sort().join(" ") === '"20 A" "dcc" 3 70', wrong.underlined);

console.log(`${passed} passed, ${failed} failed`);
process.exit(failed > 0 ? 1 : 0);
