// Where the browser keeps nothing, or has no room left, the page says so and counts on.
import assert from 'node:assert/strict';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { assertQuiet, check, contextWithProfile, open, openOnce, tablet } from './support/browser.mjs';
import { inScratch, tally } from './support/program.mjs';
import { countBox, counted, exported, tapTimes } from './support/tally_page.mjs';

const sheet = tally('tally', 'examples/saltmarsh.json');

async function assertWarnsAndCounts(page, name) {
  await page.locator('#bar-storage').waitFor();
  assert.match(await page.locator('#bar-storage').innerText(), /lost|not kept/);
  await tapTimes(page, 'positive', 1);
  await exported(page, inScratch(name));
  const [box] = JSON.parse(readFileSync(inScratch(name), 'utf8')).boxes;
  assert.equal(box.count.positive, await counted(page, 'positive'));
}

check('tally: storage forbidden by the browser: a bar says so, and the counts reach the file', async (t) => {
  const profile = inScratch('forbidding');
  mkdirSync(`${profile}/Default`, { recursive: true });
  const block = 2; // the value of Chromium's content settings
  writeFileSync(
    `${profile}/Default/Preferences`,
    JSON.stringify({ profile: { default_content_setting_values: { cookies: block } } }),
  );
  const context = await contextWithProfile(t, profile, tablet);
  const page = await open(context, sheet);
  assert.equal(
    await page.evaluate(() => {
      try {
        return typeof window.localStorage;
      } catch {
        return 'forbidden';
      }
    }),
    'forbidden',
  );
  await countBox(page, 'A-01', { positive: 2 });
  await assertWarnsAndCounts(page, 'forbidden.json');
  assertQuiet(page);
  await context.close();
});

check('tally: storage full: no bar before it is, a bar then, and the counts reach the file', async (t) => {
  const page = await openOnce(t, tablet, sheet);
  await countBox(page, 'A-01', { positive: 2 });
  assert.equal(await page.locator('#bar-storage').count(), 0);
  await page.evaluate(() => {
    for (let size = 1 << 22, n = 0; size > 0; size = size >> 1)
      try {
        for (;;) localStorage.setItem(`filler ${n++}`, 'x'.repeat(size));
      } catch {
        /* no room for so much */
      }
  });
  await tapTimes(page, 'negative', 12);
  await assertWarnsAndCounts(page, 'full.json');
  assertQuiet(page);
});
