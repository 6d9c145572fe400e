// How the tally page looks: on a tablet and on a phone, to a thumb, to eyes in the sun, to a screen reader.
import assert from 'node:assert/strict';
import { checkAccess } from './support/access.mjs';
import { assertFitsWidth, assertQuiet, check, desk, openOnce, phone, tablet } from './support/browser.mjs';
import { example, tally, write } from './support/program.mjs';
import { countBox, openBox, showTools, unfold } from './support/tally_page.mjs';

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

check('tally: counts alone are called counts, and what was not looked at is said, on the screen and on paper', async (t) => {
  const page = await openOnce(t, tablet, sheet);
  const lines = (selector) => page.locator(selector).innerText();
  await openBox(page, 'B-12'); // 6 strings of 18
  for (const which of ['positive', 'negative', 'fuses']) await page.locator(`[data-number=${which}]`).fill('6');
  await page.locator('#find').tap();
  assert.equal(await lines('#progress-text'), '1 of 50 boxes counted');
  assert.equal(await lines('#box-state'), 'counts as planned');
  assert.equal(await lines('#box-left'), 'Not looked at: series, label, conditions.');
  assert.match(await lines('[data-box="B-12"]'), /counts as planned\s+not looked at: series, label, conditions/);

  await page.locator('.posted').getByLabel('Strings').fill('6');
  await unfold(page, 'seen');
  await page.locator('label[for=looked-seen]').tap();
  assert.equal(await lines('#box-left'), 'Not looked at: series.');
  await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
  await page.emulateMedia({ media: 'print' });
  assert.match(await lines('#paper tbody tr'), /counts as planned; not looked at: series/);
  const { textWidth, pageWidth } = await page.evaluate(() => ({
    textWidth: document.querySelector('#paper table').getBoundingClientRect().right,
    pageWidth: document.querySelector('footer').getBoundingClientRect().right,
  }));
  assert.ok(textWidth <= pageWidth + 0.5, `the table ends at ${textWidth}, the text at ${pageWidth}`);
  await page.emulateMedia({ media: 'screen' });
  await unfold(page, 'series');
  await page.getByLabel('Modules in series, all strings').fill('18');
  assert.equal(await lines('#box-left'), '');
  assert.doesNotMatch(await lines('[data-box="B-12"]'), /not looked at/);
  assertQuiet(page);
});

check('tally: two long ids with one beginning are told apart in the list, and are whole in the head', async (t) => {
  const design = example('saltmarsh');
  delete design.$schema;
  const ids = ['1', '2'].map((end) => `${'HALL-A-SOUTH-BAY-'.repeat(6)}${end}`);
  ids.forEach((id, i) => (design.combiners[i].id = id));
  design.combiners[2].id = 'HALL-A-ROOF-1-BOX-05'; // 20 characters: on one line
  for (const device of [phone, tablet]) {
    const page = await openOnce(t, device, tally('long', write('long.json', design)));
    const shown = await page.locator('.box-row b [aria-hidden]').allInnerTexts();
    assert.equal(shown.length, 2);
    assert.notEqual(shown[0], shown[1]);
    for (const id of ids) {
      await openBox(page, id);
      const name = page.locator('#box-name .isolate');
      assert.equal(await name.innerText(), id);
      assert.ok(await name.evaluate((e) => e.getBoundingClientRect().bottom <= e.closest('header').getBoundingClientRect().bottom));
    }
    await openBox(page, 'HALL-A-ROOF-1-BOX-05');
    assert.equal(await page.locator('#box-name .isolate').evaluate((e) => e.getClientRects().length), 1);
    await assertFits(page, device.viewport.width);
  }
});
