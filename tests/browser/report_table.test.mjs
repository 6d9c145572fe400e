// The table of boxes: sorted and filtered, held against the JSON report of the same run.
import assert from 'node:assert/strict';
import { assertQuiet, check, desk, openOnce } from './support/browser.mjs';
import { report } from './support/program.mjs';

const { file, json } = report('faults', 'examples/saltmarsh-faults.json');
const verdicts = ['stop', 'correct', 'clarify', 'not-visited', 'accept'];

// What the JSON report says of a box, by the words in the head of the column.
const figures = {
  Box: (box) => box.id,
  Strings: (box) => box.calc.strings,
  Modules: (box) => box.calc.modules,
  'Max V': (box) => box.calc.max_v,
  'Out A': (box) => box.calc.out_max_a,
  Verdict: (box) => verdicts.indexOf(box.verdict),
};

const rows = (page) =>
  page.locator('#boxes tbody tr').evaluateAll((all) =>
    all.filter(look.shown).map((row) => ({
      id: row.dataset.box,
      verdict: row.dataset.verdict,
      cells: [...row.cells].map((cell) => cell.innerText.trim()),
    })),
  );

const heads = (page) => page.locator('#boxes thead th').evaluateAll((all) => all.map((th) => th.innerText.trim()));

// A number as the page writes it: a minus sign, thin spaces between thousands, a unit behind.
const number = (text) => Number.parseFloat(text.replace('−', '-').replace(/(?<=\d)[\s\u202f\u2009](?=\d)/g, ''));

// Names are in order as people count: B8 before B12.
const names = new Intl.Collator('en', { numeric: true });
const order = (one, other) => (typeof one === 'number' ? one - other : names.compare(one, other));
const sorted = (values, down) =>
  values.every((value, i) => i === 0 || order(values[i - 1], value) * (down ? -1 : 1) <= 0);

check('report table: a row for each box, with the figures and the verdict of the JSON report', async (t) => {
  const page = await openOnce(t, desk, file);
  const shown = await rows(page);
  const titles = await heads(page);
  assert.deepEqual(
    shown.map((row) => row.id),
    json.boxes.map((box) => box.id),
  );
  assert.deepEqual(
    shown.map((row) => row.verdict),
    json.boxes.map((box) => box.verdict),
  );
  for (const [title, figure] of Object.entries(figures).slice(1, 5)) {
    const column = titles.indexOf(title);
    assert.ok(column >= 0, `a column "${title}" among ${titles.join(', ')}`);
    json.boxes.forEach((box, i) =>
      assert.ok(
        Math.abs(number(shown[i].cells[column]) - figure(box)) <= 0.051,
        `${box.id} ${title}: ${shown[i].cells[column]}`,
      ),
    );
  }
});

check('report table: each column sorts up and down, numbers as numbers, worst verdict first', async (t) => {
  const page = await openOnce(t, desk, file);
  const titles = await heads(page);
  const boxes = Object.fromEntries(json.boxes.map((box) => [box.id, box]));
  const buttons = page.locator('#boxes thead th button');
  assert.equal(await buttons.count(), titles.length, 'a button in each head');
  for (const [column, title] of titles.entries()) {
    const th = page.locator('#boxes thead th').nth(column);
    const seen = [];
    for (let click = 0; click < 2; ++click) {
      await buttons.nth(column).click();
      const direction = await th.getAttribute('aria-sort');
      seen.push(direction);
      assert.equal(
        await page.locator('#boxes thead th[aria-sort="ascending"], #boxes thead th[aria-sort="descending"]').count(),
        1,
        'one column says that it is sorted',
      );
      const shown = await rows(page);
      assert.equal(shown.length, json.boxes.length);
      const texts = shown.map((row) => row.cells[column]);
      const numeric = texts.every((text) => /^[−-]?\d[\d\s]*(\.\d+)?( %)?$/.test(text));
      const values = figures[title]
        ? shown.map((row) => figures[title](boxes[row.id]))
        : numeric
          ? texts.map(number)
          : texts;
      assert.ok(sorted(values, direction === 'descending'), `${title} ${direction}: ${values.join(' ')}`);
    }
    assert.deepEqual(seen.sort(), ['ascending', 'descending'], title);
  }
  assertQuiet(page);
});

check('report table: filters by text and verdict, table and box sections, and says how many', async (t) => {
  const page = await openOnce(t, desk, file);
  const filter = page.locator('#filter-text');
  const verdict = page.locator('#filter-verdict');
  const sections = () =>
    page.locator('section.box').evaluateAll((all) => all.filter(look.shown).map((section) => section.id));
  const all = await sections();
  assert.ok(all.length > 0);

  await filter.fill('b-2');
  const wanted = json.boxes.filter((box) => box.id.startsWith('B-2')).map((box) => box.id);
  await page.waitForFunction(
    (count) => [...document.querySelectorAll('#boxes tbody tr')].filter(look.shown).length === count,
    wanted.length,
  );
  assert.deepEqual(
    (await rows(page)).map((row) => row.id),
    wanted,
  );
  assert.match(await page.locator('#shown').innerText(), new RegExp(`\\b${wanted.length}\\b`));
  for (const id of await sections()) assert.ok(wanted.includes(json.boxes[Number(id.slice(4))].id), `section ${id}`);

  await filter.fill('');
  for (const option of await verdict
    .locator('option')
    .evaluateAll((options) => options.map((o) => o.value).filter((value) => value !== ''))) {
    await verdict.selectOption(option);
    const of = json.boxes.filter((box) => box.verdict === option).map((box) => box.id);
    assert.deepEqual(
      (await rows(page)).map((row) => row.id),
      of,
      option,
    );
    assert.match(await page.locator('#shown').innerText(), new RegExp(`\\b${of.length}\\b`));
  }

  await verdict.selectOption('stop');
  await filter.fill('a-');
  const both = json.boxes.filter((box) => box.verdict === 'stop' && box.id.startsWith('A-')).map((box) => box.id);
  assert.ok(both.length > 0);
  await page.waitForFunction(
    (count) => [...document.querySelectorAll('#boxes tbody tr')].filter(look.shown).length === count,
    both.length,
  );
  assert.deepEqual(
    (await rows(page)).map((row) => row.id),
    both,
  );

  await page.emulateMedia({ media: 'print' });
  const told = new RegExp(`^Filtered: ${both.length} of ${json.boxes.length} boxes .*“a-” and with the verdict stop`);
  for (const note of await page.locator('.filtered').allInnerTexts()) assert.match(note, told);
  assert.ok(await page.locator('header.block .filtered').isVisible(), 'the title block tells of the filter on paper');
  await page.emulateMedia({ media: 'screen' });
  assert.equal(await page.locator('header.block .filtered').isVisible(), false);

  await filter.fill('no such box');
  await page.waitForFunction(() => [...document.querySelectorAll('#boxes tbody tr')].filter(look.shown).length === 0);
  assert.match(await page.locator('#shown').innerText(), /\b0\b|\bno\b/i);

  await filter.fill('');
  await verdict.selectOption('');
  assert.deepEqual(await sections(), all);
  assert.equal((await rows(page)).length, json.boxes.length);
  assertQuiet(page);
});
