// Text from files stays text: nothing of it runs, loads, moves other text or bursts the page.
import assert from 'node:assert/strict';
import { assertFitsWidth, assertQuiet, check, desk, openOnce, phone, tablet } from './support/browser.mjs';
import { hostileDesign, hostileRecord, texts } from './support/hostile.mjs';
import { report, tally } from './support/program.mjs';
import { load } from './support/tally_page.mjs';

const design = hostileDesign();
const record = hostileRecord();

const unfoldAll = (page) =>
  page.evaluate(() => document.querySelectorAll('details').forEach((details) => (details.open = true)));

async function assertHarmless(page) {
  assert.equal(await page.evaluate(() => window.hacked), undefined);
  const foreign = await page.evaluate(() =>
    [
      ...document.querySelectorAll(
        'img, iframe, object, embed, link, base, form, meta[http-equiv=refresh], image, foreignObject',
      ),
    ].map((e) => e.outerHTML.slice(0, 120)),
  );
  assert.deepEqual(foreign, []);
  const scripts = await page.evaluate(() =>
    [...document.scripts]
      .filter((s) => s.type !== 'application/json' && s.nonce !== 'page')
      .map((s) => s.outerHTML.slice(0, 120)),
  );
  assert.deepEqual(scripts, []);
  const attributes = await page.evaluate(() =>
    [...document.querySelectorAll('*')]
      .flatMap((e) =>
        [...e.attributes].filter(
          ({ name, value }) => name.startsWith('on') || (/^\s*javascript:/i.test(value) && name === 'href'),
        ),
      )
      .map(({ name, value }) => `${name}=${value}`),
  );
  assert.deepEqual(attributes, []);
  assert.deepEqual(
    await page.evaluate(() =>
      look
        .texts()
        .filter(({ text }) => /[\u200E\u200F\u202A-\u202E\u2066-\u2069]/.test(text))
        .map(({ text }) => text.slice(0, 80)),
    ),
    [],
  );
  assertQuiet(page);
}

async function assertTold(page) {
  const all = await page.evaluate(() => document.body.innerText.replace(/\s+/g, ''));
  for (const text of texts.slice(0, 6)) assert.ok(all.includes(text.replace(/\s+/g, '')), text);
  assert.ok(all.includes('\\u{202E}desrever'), 'an escape for what turns text');
}

check('hostile texts in a report: shown as text, nothing runs, a phone holds it', async (t) => {
  for (const made of [report('hostile', design, '--show-work'), report('hostile-visit', design, '--asbuilt', record)]) {
    for (const device of [desk, phone]) {
      const page = await openOnce(t, device, made.file);
      await unfoldAll(page);
      await assertHarmless(page);
      await assertTold(page);
      assert.equal((await page.locator('#boxes tbody tr').count()) >= made.json.boxes.length, true);
      await assertFitsWidth(page, device.viewport.width);
    }
  }
});

check('hostile texts in a tally page: shown as text, nothing runs, a phone holds it', async (t) => {
  const page = await openOnce(t, phone, tally('hostile-tally', design));
  const ids = await page.locator('button.box-row').evaluateAll((all) => all.map((one) => one.dataset.box));
  assert.deepEqual(ids.slice(0, texts.length), texts);
  await assertTold(page);
  for (const id of ids) {
    await page.evaluate(
      (hash) => {
        location.hash = hash;
      },
      `#box=${encodeURIComponent(id)}`,
    );
    await page.waitForFunction((wanted) => document.querySelector('[aria-current]')?.dataset.box === wanted, id);
    await unfoldAll(page);
    await assertHarmless(page);
    await assertFitsWidth(page, phone.viewport.width, id.slice(0, 40));
  }
});

check('hostile texts in a loaded record: kept as text, nothing runs', async (t) => {
  const page = await openOnce(t, tablet, tally('hostile-load', design));
  await load(page, record);
  await page.waitForFunction(() => document.querySelectorAll('button.box-row').length === 10);
  await page.locator('#bars').getByRole('button', { name: 'Close' }).click();
  for (const id of await page.locator('button.box-row').evaluateAll((all) => all.map((one) => one.dataset.box))) {
    await page.locator(`button.box-row[data-box=${JSON.stringify(id)}]`).click();
    await unfoldAll(page);
    await assertHarmless(page);
  }
});
