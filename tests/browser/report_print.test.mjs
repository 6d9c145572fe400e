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

check('report on Letter: every page of the box sheets names its box, where a sheet runs over too', async (t) => {
  const { file, json } = report('visit', 'examples/saltmarsh.json', '--asbuilt', 'examples/saltmarsh-visit.json');
  const page = await openOnce(t, { viewport: { width: 1200, height: 900 } }, file);
  const pdf = inScratch('visit.pdf');
  await page.pdf({ path: pdf, format: 'Letter' });
  const pages = run('pdftotext', '-raw', pdf, '-')
    .split('\f')
    .map((text) => text.replace(/^Page \d+ of \d+\n.*\n/, '').trimStart()); // what stands in the margin
  const sheets = pages.slice(pages.findIndex((text) => /^Box sheets$/m.test(text)) + 1).filter((text) => text !== '');
  if (sheets.at(-1).startsWith('Caution.')) sheets.pop();
  const ids = new Set(json.boxes.map(({ id }) => id));
  const heads = sheets.map((text) => text.split(' ')[0]);
  t.diagnostic(`${heads.length} pages of box sheets`);
  assert.deepEqual(heads.filter((head) => !ids.has(head)), []);
  assert.ok(heads.some((id, i) => id === heads[i + 1]), 'a sheet of this report runs over');
  assert.ok(heads.length < json.boxes.length, 'short sheets share a page');
});
