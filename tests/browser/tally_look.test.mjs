// How the tally page looks: on a tablet and on a phone, to a thumb, to eyes in the sun, to a screen reader.
import assert from 'node:assert/strict';
import { checkAccess } from './support/access.mjs';
import { assertFitsWidth, assertQuiet, check, desk, openOnce, phone, tablet } from './support/browser.mjs';
import { tally } from './support/program.mjs';
import { countBox, openBox, showTools } from './support/tally_page.mjs';

const sheet = tally('tally', 'examples/saltmarsh.json');
const thumb = 44; // px, WCAG 2.2, success criterion 2.5.5
const counterHeight = 96; // px: tapped without looking

const unfoldAll = (page) =>
  page.evaluate(() => document.querySelectorAll('details').forEach((details) => (details.open = true)));

// Everything to be touched, with what it measures. A box to tick is touched by its label.
const smallTargets = (page, least) =>
  page.evaluate(
    (px) =>
      [...document.querySelectorAll('button, input, select, textarea, summary, a[href]')].flatMap((element) => {
        const target = element.closest('label') ?? element;
        if (!look.shown(target)) return [];
        const { width, height } = target.getBoundingClientRect();
        return width >= px - 0.5 && height >= px - 0.5
          ? []
          : [
              `${width.toFixed(0)} x ${height.toFixed(0)}: <${element.localName} id="${element.id}"> ${target.textContent.slice(0, 40)}`,
            ];
      }),
    least,
  );

async function assertFits(page, width) {
  await assertFitsWidth(page, width);
  assert.deepEqual(await page.evaluate((edge) => look.cutTexts(edge, false), width), []);
  assert.deepEqual(await page.evaluate(() => look.smallTexts(11)), []);
  assert.deepEqual(await smallTargets(page, thumb), []);
}

for (const [name, device] of Object.entries({ phone, tablet })) {
  check(`tally on a ${name}: nothing wider than the screen, every target fit for a thumb`, async (t) => {
    const page = await openOnce(t, device, sheet);
    await showTools(page);
    await assertFits(page, device.viewport.width);
    await openBox(page, 'B-20');
    await unfoldAll(page);
    await assertFits(page, device.viewport.width);
    const heights = await page
      .locator('[data-count]')
      .evaluateAll((all) => all.map((button) => button.getBoundingClientRect().height));
    assert.equal(heights.length, 3);
    for (const height of heights) assert.ok(height >= counterHeight, `a counter ${height} px high`);
    assertQuiet(page);
  });
}

check('tally: contrast 4.5 everywhere, names, headings, axe-core: the list, a box, a box unfolded', async (t) => {
  const page = await openOnce(t, { ...desk, hasTouch: true, screenReader: true }, sheet);
  const judge = async () => {
    assert.deepEqual(await page.evaluate(() => lowContrast(4.5)), []);
    await checkAccess(t, page);
  };
  await judge();
  await countBox(page, 'A-01', { positive: 2, fuses: 1 });
  await judge();
  await showTools(page);
  await unfoldAll(page);
  await page.locator('[data-condition]').first().check();
  await judge();
});

check('tally: by keyboard alone: find a box, count, take back', async (t) => {
  const page = await openOnce(t, desk, sheet);
  await page.locator('#find').focus();
  await page.keyboard.type('B-07');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.querySelector('#box-name').textContent.includes('B-07'));
  const reach = async (selector) => {
    for (let press = 0; press < 100; ++press) {
      if (await page.evaluate((wanted) => document.activeElement.matches(wanted), selector)) return;
      await page.keyboard.press('Tab');
    }
    assert.fail(`the tab key does not come to ${selector}`);
  };
  await reach('[data-count=positive]');
  assert.notEqual(await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle), 'none');
  await page.keyboard.press('Enter');
  await page.keyboard.press('Space');
  const now = () => page.locator('[data-count=positive] .now').innerText();
  assert.equal(await now(), '2');
  await reach('[data-take=positive]');
  await page.keyboard.press('Space');
  assert.equal(await now(), '1');
  assertQuiet(page);
});
