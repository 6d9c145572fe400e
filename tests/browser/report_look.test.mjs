// How the report looks: on a phone, to eyes that need contrast, to a screen reader.
import assert from 'node:assert/strict';
import { assertFitsWidth, assertQuiet, check, desk, openOnce, phone } from './support/browser.mjs';
import { report } from './support/program.mjs';
import { checkAccess } from './support/access.mjs';

const pages = {
  'plan with faults': report('faults', 'examples/saltmarsh-faults.json', '--show-work'),
  'site as built': report('visit', 'examples/saltmarsh.json', '--asbuilt', 'examples/saltmarsh-visit.json'),
};

for (const [name, { file }] of Object.entries(pages)) {
  check(`report, ${name}: nothing asked of a network, nothing said on the console`, async (t) => {
    const page = await openOnce(t, desk, file);
    await page.waitForLoadState('networkidle');
    assertQuiet(page);
  });

  check(`report, ${name}: fits a phone, no text under 11 px`, async (t) => {
    const page = await openOnce(t, phone, file);
    await openAll(page);
    await assertFitsWidth(page, 360);
    assert.deepEqual(await page.evaluate(() => look.cutTexts(360, true)), []);
    assert.deepEqual(await page.evaluate(() => look.smallTexts(11)), []);
  });

  check(`report, ${name}: no text under 11 px on a desk, contrast 4.5 everywhere`, async (t) => {
    const page = await openOnce(t, desk, file);
    await openAll(page);
    assert.deepEqual(await page.evaluate(() => look.smallTexts(11)), []);
    assert.deepEqual(await page.evaluate(() => lowContrast(4.5)), []);
  });

  check(`report, ${name}: names, headings, table headers, links; axe-core`, async (t) => {
    const page = await openOnce(t, { ...desk, screenReader: true }, file);
    await checkAccess(t, page);
  });
}

const openAll = (page) => page.evaluate(() => document.querySelectorAll('details').forEach((d) => (d.open = true)));
