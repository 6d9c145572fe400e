// Reading the report: without a script, by keyboard, from a finding to its box and back.
import assert from 'node:assert/strict';
import { assertQuiet, check, desk, openOnce } from './support/browser.mjs';
import { report } from './support/program.mjs';

const pages = {
  'plan with faults': report('faults', 'examples/saltmarsh-faults.json', '--show-work'),
  'site as built': report('visit', 'examples/saltmarsh.json', '--asbuilt', 'examples/saltmarsh-visit.json'),
};

const letters = (text) => text.replace(/\s+/g, ' ').trim();

// Entries of the page with the rule that they name and the boxes that they concern: one sentence stands for several
// boxes with the same finding.
const entries = (page) =>
  page.locator('article.finding').evaluateAll((all) =>
    all.map((article) => ({
      visible: article.checkVisibility(),
      text: article.innerText,
    })),
  );

for (const [name, { file, json }] of Object.entries(pages)) {
  check(`report, ${name}: all of it is there without a script`, async (t) => {
    const page = await openOnce(t, { ...desk, javaScriptEnabled: false }, file);
    // Off the screen the browser leaves out what it will lay out when it is scrolled to.
    await page.locator('body *').evaluateAll((all) =>
      all.forEach((element) => {
        element.style.contentVisibility = 'visible';
      }),
    );
    const visible = letters(await page.locator('body').innerText());
    const shown = await page
      .locator('#boxes tbody tr')
      .evaluateAll((all) => all.filter((row) => row.checkVisibility()).map((row) => row.dataset.box));
    assert.deepEqual(
      shown.filter((id) => json.boxes.some((box) => box.id === id)),
      json.boxes.map((box) => box.id),
    );
    const told = await entries(page);
    assert.ok(told.length > 5);
    assert.deepEqual(
      told.filter((entry) => !entry.visible),
      [],
    );
    for (const { message, rule } of json.findings) {
      assert.ok(visible.includes(letters(message)), `${rule}: ${message}`);
      assert.ok(
        told.some(({ text }) => text.includes(rule)),
        rule,
      );
    }
    for (const hidden of ['details:not([open])', 'section.box'])
      assert.equal(
        await page.locator(hidden).evaluateAll((all) => all.filter((one) => !one.checkVisibility()).length),
        0,
        hidden,
      );
    assert.match(visible, /authority having jurisdiction/);
  });

  check(
    `report, ${name}: the drawing of a box carries the number of each finding on it, and leads to it`,
    async (t) => {
      const page = await openOnce(t, desk, file);
      const articles = Object.fromEntries(
        await page
          .locator('article.finding')
          .evaluateAll((all) => all.map((article) => [article.id, article.textContent])),
      );
      const drawings = Object.fromEntries(
        await page
          .locator('section.box')
          .evaluateAll((all) =>
            all.map((section) => [
              section.id,
              [...section.querySelectorAll('figure.schematic svg a')].map((a) => ({
                to: a.getAttribute('href').slice(1),
                text: a.textContent,
              })),
            ]),
          ),
      );
      const sections = Object.fromEntries(
        await page
          .locator('#boxes tbody tr')
          .evaluateAll((all) => all.map((row) => [row.dataset.box, row.querySelector('a').hash.slice(1)])),
      );
      assert.equal(await page.locator('figure.schematic svg').count(), await page.locator('section.box').count());
      let marked = 0;
      for (const { box, rule } of json.findings.filter(
        ({ box: id }) => id !== null && json.boxes.some((one) => one.id === id),
      )) {
        const marks = drawings[sections[box]].filter(({ to }) => articles[to]?.includes(rule));
        assert.ok(marks.length > 0, `${rule} in the drawing of ${box}`);
        for (const { to, text } of marks)
          assert.ok(text.includes(to.replace('finding-', '')), `${box}: "${text}" for ${to}`);
        ++marked;
      }
      assert.ok(marked > 15, `${marked} findings`);
      assertQuiet(page);
    },
  );
}

check('report: workings open by keyboard, with the place of the focus to be seen', async (t) => {
  const page = await openOnce(t, desk, pages['plan with faults'].file);
  const details = page.locator('article.finding details').first();
  const before = await details.evaluate((d) => d.open);
  let reached = false;
  for (let press = 0; press < 400 && !reached; ++press) {
    await page.keyboard.press('Tab');
    reached = await page.evaluate(() => document.activeElement.matches('article.finding summary'));
  }
  assert.ok(reached, 'the tab key comes to a summary');
  const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle);
  assert.notEqual(outline, 'none');
  const open = () => page.evaluate(() => document.activeElement.closest('details').open);
  const was = await open();
  await page.keyboard.press('Enter');
  assert.equal(await open(), !was);
  await page.keyboard.press('Enter');
  assert.equal(await open(), was);
  assert.equal(typeof before, 'boolean');
});

check('report: a link from outside to a finding shows it, and a link to a filtered box too', async (t) => {
  const page = await openOnce(t, desk, pages['plan with faults'].file);
  await page.locator('#filter-text').fill('no such box');
  const link = page.locator('article.finding a[href^="#box-"]').first();
  const target = (await link.getAttribute('href')).slice(1);
  await link.click();
  await page.waitForFunction((id) => look.shown(document.getElementById(id)), target);
  assertQuiet(page);
});
