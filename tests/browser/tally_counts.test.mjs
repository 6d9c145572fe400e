// Counting on the roof: by touch, over reload and closing, into a file that boxproof reads, and back.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { assertQuiet, check, contextFor, contextWithProfile, open, openOnce, tablet } from './support/browser.mjs';
import { boxproof, inScratch, inSource, run, tally, write } from './support/program.mjs';
import {
  answer,
  countBox,
  counted,
  exported,
  load,
  openBox,
  row,
  showTools,
  tapTimes,
  unfold,
} from './support/tally_page.mjs';

const sheet = tally('tally', 'examples/saltmarsh.json');
const profile = inScratch('profile');
const record = inScratch('record.json');
const read = (file) => JSON.parse(readFileSync(file, 'utf8'));
const posted = (page, label) => page.locator('.posted').getByLabel(label);

// B-12 of the plan: 6 strings of 18, B-11: 8. One positive is missing at the box.
async function fill(page) {
  await page.locator('#find').fill('b-12');
  await page.waitForFunction(() => [...document.querySelectorAll('button.box-row')].filter(look.shown).length === 1);
  await countBox(page, 'B-12', { positive: 5, negative: 7, fuses: 6 });
  await page.locator('[data-take=negative]').tap();
  await unfold(page, 'seen');
  await page.locator('[data-condition=burned-terminal]').locator('xpath=ancestor::label').tap();
  await posted(page, 'Strings').fill('6');
  await posted(page, 'Modules in series').fill('18');
  await page.locator('#find').fill('');
  await countBox(page, 'B-11', { positive: 8, negative: 8, fuses: 8 });
}

async function assertFilled(page) {
  await openBox(page, 'B-12');
  assert.deepEqual(
    [await counted(page, 'positive'), await counted(page, 'negative'), await counted(page, 'fuses')],
    [5, 6, 6],
  );
  assert.deepEqual(
    [await posted(page, 'Strings').inputValue(), await posted(page, 'Modules in series').inputValue()],
    ['6', '18'],
  );
  await unfold(page, 'seen');
  assert.equal(await page.locator('[data-condition=burned-terminal]').isChecked(), true);
  assert.equal(await page.locator('[data-condition]:checked').count(), 1);
  await openBox(page, 'B-11');
  assert.deepEqual(
    [await counted(page, 'positive'), await counted(page, 'negative'), await counted(page, 'fuses')],
    [8, 8, 8],
  );
  assert.equal(await page.locator('#progress').evaluate((p) => p.value), 2);
  await openBox(page, 'A-03');
  assert.equal(await counted(page, 'positive'), null);
}

check('tally: what is counted by touch is there after a reload, after closing, and in the file', async (t) => {
  let context = await contextWithProfile(t, profile, tablet);
  let page = await open(context, sheet);
  await fill(page);
  await assertFilled(page);
  await page.reload();
  await assertFilled(page);
  assertQuiet(page);
  await context.close();

  context = await contextWithProfile(t, profile, tablet);
  page = await open(context, sheet);
  await assertFilled(page);
  const name = await exported(page, record);
  assert.match(name, /^[a-z0-9-]+\.json$/);
  assertQuiet(page);
  await context.close();
});

check('tally: the exported file fits the schema, and boxproof finds in it what was counted', () => {
  const { format, boxes } = read(record);
  assert.equal(format, 'boxproof-asbuilt/1');
  assert.deepEqual(boxes, [
    { id: 'B-11', count: { positive: 8, negative: 8, fuses: 8 } },
    {
      id: 'B-12',
      posted: { strings: 6, series: 18 },
      count: { positive: 5, negative: 6, fuses: 6 },
      seen: [{ what: 'burned-terminal' }],
    },
  ]);
  assert.match(
    run('/usr/bin/python3', inSource('tests/schema/validate.py'), inSource('data/schema/asbuilt.schema.json'), record),
    /^1 passed, 0 failed$/m,
  );
  const { findings } = JSON.parse(
    boxproof('check', 'examples/saltmarsh.json', '--asbuilt', record, '--format', 'json'),
  );
  const of = (id) =>
    findings.filter(
      (finding) => finding.box === id && (finding.basis === 'as-built' || /^(tally|condition)\//.test(finding.rule)),
    );
  const polarity = of('B-12').filter((finding) => finding.rule === 'tally/polarity');
  assert.equal(polarity.length, 1);
  assert.equal(polarity[0].severity, 'hazard');
  assert.ok(of('B-12').some((finding) => finding.rule === 'condition/burned-terminal'));
  assert.deepEqual(of('B-11'), []);
});

check(
  'tally: a fresh browser takes the file and has the same; a wrong one is refused and changes nothing',
  async (t) => {
    const page = await openOnce(t, tablet, sheet);
    await load(page, record);
    await page.locator('#bar-loaded').waitFor(); // the file is read in its own time
    await assertFilled(page);
    const again = inScratch('again.json');
    await exported(page, again);
    assert.deepEqual(read(again), read(record));

    const wrongs = {
      'no JSON': '{"format": "boxproof-asbuilt/1", "boxes": [',
      'a design': { format: 'boxproof-design/1', boxes: [] },
      'a count that is none': { format: 'boxproof-asbuilt/1', boxes: [{ id: 'A-01', count: { positive: -1 } }] },
      'a word that is none': {
        format: 'boxproof-asbuilt/1',
        boxes: [{ id: 'A-01', seen: [{ what: 'burnt-terminal' }] }],
      },
      'a box twice': { format: 'boxproof-asbuilt/1', boxes: [{ id: 'A-01' }, { id: 'A-01' }] },
    };
    for (const [what, content] of Object.entries(wrongs)) {
      await load(page, write('wrong.json', content));
      const dialog = page.locator('dialog#ask');
      await dialog.waitFor();
      assert.match(await dialog.innerText(), /not loaded/, what);
      await page.keyboard.press('Escape');
      await dialog.waitFor({ state: 'hidden' });
    }
    await assertFilled(page);
    assertQuiet(page);
  },
);

check('tally: nothing is cleared or replaced without being asked, and undo brings it back', async (t) => {
  const page = await openOnce(t, tablet, sheet);
  await countBox(page, 'A-01', { positive: 3 });
  await showTools(page);
  await page.locator('#clear-all').tap();
  await answer(page, 'cancel');
  assert.equal(await counted(page, 'positive'), 3);
  await page.locator('#clear-all').tap();
  await answer(page, 'yes');
  await page.waitForFunction(() => !/\d/.test(document.querySelector('[data-count=positive] .now').textContent));
  await page.locator('#undo').tap();
  await page.waitForFunction(() => document.querySelector('[data-count=positive] .now').textContent === '3');

  await page.locator('#clear-box').tap();
  await answer(page, 'cancel');
  assert.equal(await counted(page, 'positive'), 3);

  await load(page, record);
  await answer(page, 'cancel');
  assert.equal(await counted(page, 'positive'), 3);
  assertQuiet(page);
});

// What one tab stores comes to the other in the browser's own time.
const shows = (page, positives) =>
  page.waitForFunction(
    (wanted) => document.querySelector('[data-count=positive] .now').textContent === wanted,
    positives,
  );

check('tally: two tabs on one site keep what was counted in either', async (t) => {
  const context = await contextFor(t, tablet);
  const [one, two] = [await open(context, sheet), await open(context, sheet)];
  await one.bringToFront();
  await countBox(one, 'A-01', { positive: 2 });
  await two.bringToFront();
  await countBox(two, 'A-02', { positive: 4 });
  await openBox(two, 'A-01');
  await shows(two, '2');
  await tapTimes(two, 'positive', 1);
  await one.bringToFront();
  await shows(one, '3');
  await tapTimes(one, 'positive', 1);
  await two.bringToFront();
  await shows(two, '4');
  await two.reload();
  await openBox(two, 'A-01');
  assert.equal(await counted(two, 'positive'), 4);
  await openBox(two, 'A-02');
  assert.equal(await counted(two, 'positive'), 4);
  assert.ok(await row(two, 'A-02').isVisible());
  assertQuiet(one);
});
