// The report on paper: Letter and A4, whole texts, nothing cut.
import assert from 'node:assert/strict';
import { assertFitsWidth, check, openOnce } from './support/browser.mjs';
import { inScratch, report, run } from './support/program.mjs';

const { file, json } = report('faults', 'examples/saltmarsh-faults.json', '--show-work');

// CSS pixels, 96 to the inch; the margins left and right are those of @page in page.css, 13 mm each.
const papers = { Letter: { width: 816, points: 612 }, A4: { width: 794, points: 595 } };
const margins = 2 * Math.ceil((13 / 25.4) * 96);

const squeezed = (text) => text.replace(/[\s\u00ad]+/g, '');

for (const [paper, { width, points }] of Object.entries(papers)) {
  check(`report on ${paper}: every finding in the PDF, every word on the paper`, async (t) => {
    const page = await openOnce(t, { viewport: { width: 1200, height: 900 } }, file);
    const pdf = inScratch(`${paper}.pdf`);
    await page.pdf({ path: pdf, format: paper });
    const text = run('pdftotext', '-raw', pdf, '-');
    const paged = text.split('\f').length - 1;
    assert.ok(paged >= 3 && paged <= 3 * json.boxes.length, `${paged} pages`);
    t.diagnostic(`${paged} pages`);
    const all = squeezed(text);
    for (const { message, rule } of json.findings) assert.ok(all.includes(squeezed(message)), `${rule}: ${message}`);
    for (const { id } of json.boxes) assert.ok(all.includes(id), id);

    const words = [
      ...run('pdftotext', '-bbox', pdf, '-').matchAll(
        /<word xMin="([\d.-]+)" yMin="[\d.-]+" xMax="([\d.-]+)" yMax="[\d.-]+">([^<]*)/g,
      ),
    ];
    assert.ok(words.length > 1000);
    const edge = 20; // points: half of what page.css leaves free
    assert.deepEqual(
      words
        .filter(([, left, right]) => Number(left) < edge || Number(right) > points - edge)
        .map(([, left, right, word]) => `${left}-${right} ${word}`),
      [],
    );
  });

  check(`report on ${paper}: nothing wider than the paper, no text under 6 points`, async (t) => {
    const page = await openOnce(t, { viewport: { width: width - margins, height: 900 } }, file);
    await page.emulateMedia({ media: 'print' });
    await assertFitsWidth(page, width - margins);
    assert.deepEqual(await page.evaluate((edge) => look.cutTexts(edge, false), width - margins), []);
    assert.deepEqual(await page.evaluate(() => look.smallTexts((6 / 72) * 96)), []);
    assert.ok((await page.evaluate(() => look.texts().length)) > 500);
    assert.equal(await page.locator('#filter-text').isVisible(), false, 'no controls on paper');
  });
}
