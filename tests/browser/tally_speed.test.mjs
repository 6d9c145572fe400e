// Five hundred boxes on one page: each touch is answered at once.
import assert from 'node:assert/strict';
import { assertQuiet, check, openOnce, tablet } from './support/browser.mjs';
import { example, tally, write } from './support/program.mjs';
import { counted, openBox, row } from './support/tally_page.mjs';

const most = 200; // ms: an answer that still feels immediate to somebody who counts
const times = 30;

function largeSite() {
  const design = example('saltmarsh');
  delete design.$schema;
  delete design.site.permit;
  const name = (n, { id }) => `${id.slice(0, 1)}${Math.floor(n / 50)}-${id.slice(2)}`;
  design.combiners = Array.from({ length: 500 }, (_, n) => {
    const box = design.combiners[n % design.combiners.length];
    return { ...box, id: name(n, box), sheet: `${box.sheet ?? 'E-1'}-${Math.floor(n / 50)}` };
  });
  return write('large.json', design);
}

const sheet = tally('large', largeSite());

// Puts on record how long it takes from an event to the second frame behind it: by then the first is painted.
const watchEvent = (page, type) =>
  page.evaluate((name) => {
    globalThis.took = [];
    document.addEventListener(
      name,
      (event) => {
        requestAnimationFrame(() =>
          requestAnimationFrame(() => globalThis.took.push(performance.now() - event.timeStamp)),
        );
      },
      { capture: true },
    );
  }, type);

async function worst(page, t, what, act) {
  await page.evaluate(() => {
    globalThis.took = [];
  });
  for (let i = 0; i < times; ++i) {
    await act(i);
    await page.waitForFunction((n) => globalThis.took.length > n, i);
  }
  const took = (await page.evaluate(() => globalThis.took)).sort((a, b) => a - b);
  t.diagnostic(
    `${what}: worst of ${took.length} ${took.at(-1).toFixed(0)} ms, median ${took[took.length >> 1].toFixed(0)} ms`,
  );
  assert.ok(took.at(-1) < most, `${what}: ${took.at(-1)} ms`);
}

check('tally of 500 boxes: opens, and answers taps on a counter, on a box and keys in the search', async (t) => {
  const started = performance.now();
  const page = await openOnce(t, tablet, sheet);
  assert.equal(await page.locator('button.box-row').count(), 500);
  t.diagnostic(`opened in ${(performance.now() - started).toFixed(0)} ms, browser included`);
  await openBox(page, 'A0-01');

  await watchEvent(page, 'click');
  await worst(page, t, 'tap on a counter', async (i) => {
    await page.locator('[data-count=positive]').tap();
    assert.equal(await counted(page, 'positive'), i + 1);
  });
  const ids = await page.locator('button.box-row').evaluateAll((all) => all.map((one) => one.dataset.box));
  await worst(page, t, 'opening a box', async (i) => {
    const id = ids[(i * 7) % 40];
    await row(page, id).tap();
    await page.waitForFunction((wanted) => document.querySelector('#box-name').textContent.includes(wanted), id);
  });
  await watchEvent(page, 'input');
  await page.locator('#find').focus();
  await worst(page, t, 'a key in the search', (i) =>
    page.keyboard.press(['A', '1', '-', '2', 'Backspace', 'Backspace', 'Backspace', 'Backspace'][i % 8]),
  );
  assertQuiet(page);
});
