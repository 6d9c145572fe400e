// A second visit: somebody looked and found none, and a finding is closed by what is entered again.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { checkAccess } from './support/access.mjs';
import { assertFitsWidth, assertQuiet, check, desk, openOnce, phone, tablet } from './support/browser.mjs';
import { boxproof, example, inScratch, tally, write } from './support/program.mjs';
import { answer, exported, load, openBox, unfold } from './support/tally_page.mjs';

const plan = 'examples/saltmarsh.json';
const visited = (name, record) => {
  boxproof('check', plan, '--asbuilt', record, '--format', 'json', '--output', inScratch(name));
  return inScratch(name);
};
const first = visited('first.json', 'examples/saltmarsh-visit.json');
const sheet = tally('again', plan, '--again', first);

const label = (page, id) => page.locator(`label[for=${id}]`);
const marks = (page) => page.locator('.again li .state').allInnerTexts();
async function record(page) {
  await exported(page, inScratch('record.json'));
  return JSON.parse(readFileSync(inScratch('record.json'), 'utf8'));
}

check('tally: looked and nothing seen is entered, and turns off with a condition', async (t) => {
  const page = await openOnce(t, tablet, sheet);
  await openBox(page, 'B-09');
  await unfold(page, 'seen');
  await label(page, 'looked-seen').tap();
  assert.deepEqual((await record(page)).boxes, [{ id: 'B-09', seen: [] }]);
  await label(page, 'c-water-inside').tap();
  assert.equal(await page.locator('#looked-seen').isChecked(), false);
  await label(page, 'c-water-inside').tap();
  assert.equal(await page.locator('#looked-seen').isChecked(), false);
  assert.deepEqual((await record(page)).boxes, []);
  await label(page, 'c-water-inside').tap();
  await label(page, 'looked-seen').tap();
  await answer(page, 'cancel');
  assert.deepEqual((await record(page)).boxes, [{ id: 'B-09', seen: [{ what: 'water-inside' }] }]);
  await label(page, 'looked-seen').tap();
  await answer(page, 'yes');
  assert.deepEqual((await record(page)).boxes, [{ id: 'B-09', seen: [] }]);
  await page.locator('#undo').tap();
  assert.equal(await page.locator('#c-water-inside').isChecked(), true);
  assertQuiet(page);
});

check('tally: a card that nothing was written on does not say that all fuses are alike', async (t) => {
  const page = await openOnce(t, tablet, sheet);
  await openBox(page, 'B-03');
  await unfold(page, 'fuse');
  await label(page, 'looked-mixed_fuses').tap();
  assert.deepEqual((await record(page)).boxes, [{ id: 'B-03', mixed_fuses: [] }]);
  await page.locator('#add-fuse').tap();
  assert.equal(await page.locator('#looked-mixed_fuses').isChecked(), false);
  assert.deepEqual((await record(page)).boxes, []);
  assertQuiet(page);
});

check('tally: what is entered again is marked, and boxproof compare calls it corrected', async (t) => {
  const page = await openOnce(t, tablet, sheet);
  await openBox(page, 'B-09');
  assert.deepEqual(await marks(page), ['not looked at yet', 'not looked at yet']);
  await unfold(page, 'seen');
  await label(page, 'looked-seen').tap();
  assert.deepEqual(await marks(page), ['looked at', 'looked at']);
  assert.equal(await page.locator('#progress').evaluate((p) => p.value), 1);
  assert.equal((await record(page)).visit.kind, 'again');
  const second = visited('second.json', inScratch('record.json'));
  const fates = JSON.parse(boxproof('compare', first, second, '--format', 'json')).findings;
  const of = (id) => [...new Set(fates.filter((f) => f.box === id && f.rule !== 'tally/not-visited').map((f) => f.outcome))];
  assert.deepEqual(of('B-09'), ['corrected']);
  assert.deepEqual(of('B-03'), ['not-looked-at-again']);
  assertQuiet(page);
});

check('tally: empty lists of a loaded record stay; the record of the first visit is asked about', async (t) => {
  const page = await openOnce(t, tablet, sheet);
  const boxes = [
    { id: 'A-16', seen: [], mixed_fuses: [], labels: [] },
    { id: 'A-01', labels: [] },
  ];
  await load(page, write('lists.json', { format: 'boxproof-asbuilt/1', boxes }));
  await answer(page, 'replace');
  await page.locator('#bar-loaded').waitFor();
  assert.deepEqual((await record(page)).boxes, boxes);
  await load(page, write('first-record.json', example('saltmarsh-visit')));
  await page.locator('dialog#ask[open]').waitFor();
  assert.match(await page.locator('#ask').innerText(), /earlier visit/);
  await answer(page, 'cancel');
  assert.deepEqual((await record(page)).boxes, boxes);
  assertQuiet(page);
});

check('tally: the panel of a second visit can be read, heard and held on a phone', async (t) => {
  const page = await openOnce(t, { ...desk, hasTouch: true, screenReader: true }, sheet);
  await openBox(page, 'A-04');
  await page.locator('.elsewhere summary').tap();
  await unfold(page, 'seen');
  await label(page, 'looked-seen').tap();
  assert.equal(await page.locator('.again li').count(), 8);
  assert.deepEqual(await page.evaluate(() => lowContrast(4.5)), []);
  await checkAccess(t, page);
  const narrow = await openOnce(t, phone, sheet);
  await openBox(narrow, 'A-04');
  await assertFitsWidth(narrow, phone.viewport.width);
  assertQuiet(narrow);
});
