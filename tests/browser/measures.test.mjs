// The measures themselves, on a page with known faults: each finds what is there to be found, and no more.
import assert from 'node:assert/strict';
import { checkAccess } from './support/access.mjs';
import { assertQuiet, check, openOnce, phone } from './support/browser.mjs';
import { write } from './support/program.mjs';
import { brokenLinks, controls, headings, jumps, structureTold, untitledTables } from './support/structure.mjs';

const around = (body) =>
  `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>page</title>${body}</html>`;

const faults = write(
  'faults.html',
  around(`
  <h1>One</h1><h3>Three</h3>
  <p style="color: #777">grey on white, 4.48</p> <p style="color: #767676">grey on white, 4.54</p>
  <div style="background: #000"><p style="color: #fff; opacity: 0.4">faded white on black</p></div>
  <p style="font-size: 10.9px">small</p> <p style="font-size: 11px">large enough</p>
  <svg width="100" height="40" viewBox="0 0 200 80" role="img" aria-label="drawing">
    <rect width="100" height="80" fill="#333"/>
    <text x="4" y="40" font-size="24" fill="#222">dark</text> <text x="104" y="40" font-size="20" fill="#222">half</text>
  </svg>
  <div style="width: 500px; background: #fff">wide <span style="float: right">right</span></div>
  <div style="overflow-x: auto; width: 300px"><div style="width: 800px">scrolls <span style="float: right">inside</span></div></div>
  <details><summary>closed</summary><p style="color: #fff">not to be seen</p></details>
  <button></button> <input id="nameless" placeholder="">
  <table><tr><td>no header</td></tr></table> <table><thead><tr><th>bare</th></tr></thead><tbody><tr><td>1</td></tr></tbody></table>
  <a href="#nowhere">nowhere</a> <a href="https://elsewhere.invalid/">elsewhere</a> <i id="twin"></i><i id="twin"></i>
  <div style="height: 5000px"></div><section style="content-visibility: auto"><h4 style="color: #888">far down</h4><button></button></section>`),
);

check('measures: contrast, letters, cut texts', async (t) => {
  const page = await openOnce(t, phone, faults);
  const contrast = await page.evaluate(() => lowContrast(4.5));
  assert.deepEqual(
    contrast.map((line) => line.replace(/^([\d.]+):.*> /, '$1 ')),
    ['4.48 grey on white, 4.48', '3.66 faded white on black', '1.26 dark', '3.54 far down'],
  );
  assert.deepEqual(
    (await page.evaluate(() => look.smallTexts(11))).map((line) => line.replace(/ px:.*> /, ' ')),
    ['10.9 small', '10.0 half'],
  );
  assert.ok((await page.evaluate(() => document.scrollingElement.scrollWidth)) > 360);
  assert.deepEqual(
    (await page.evaluate(() => look.cutTexts(360, true))).map((line) => line.replace(/.*> /, '')),
    ['right'],
  );
  assert.deepEqual(
    (await page.evaluate(() => look.cutTexts(360, false))).map((line) => line.replace(/.*> /, '')),
    ['right', 'inside'],
  );
});

check('measures: names, headings, tables, links', async (t) => {
  const page = await openOnce(t, { ...phone, screenReader: true }, faults);
  assert.deepEqual(
    (await controls(page)).filter(({ name }) => name === '').map(({ role }) => role),
    ['button', 'textbox', 'button'],
  );
  assert.deepEqual(jumps(await headings(page)), [3]);
  assert.deepEqual(await untitledTables(page), ['no header: no header cells', 'bare1: 1 header cells without scope']);
  assert.deepEqual(await brokenLinks(page), [
    '#nowhere',
    'leads out of the page: https://elsewhere.invalid/',
    'twice: twin',
  ]);
  // Chromium takes the table of one cell for a means of layout.
  assert.deepEqual(await structureTold(page), { shown: [3, 2, 2], told: [3, 2, 1] });
  await assert.rejects(checkAccess({ diagnostic() {} }, page));
});

check('measures: axe-core judges', async (t) => {
  const page = await openOnce(
    t,
    phone,
    write('axe.html', around('<h1>One</h1><button>name</button><p style="color: #aaa">pale</p>')),
  );
  await assert.rejects(checkAccess({ diagnostic() {} }, page), /color-contrast/);
});

check('measures: a request, a word on the console and an error of the page are noticed', async (t) => {
  for (const body of [
    '<img src="picture.png">',
    '<script>console.log("said")</script>',
    '<script>throw new Error("thrown")</script>',
    '<link rel="stylesheet" href="https://elsewhere.invalid/a.css">',
  ]) {
    const page = await openOnce(t, phone, write('loud.html', around(body)));
    await page.waitForLoadState('load');
    assert.throws(() => assertQuiet(page), assert.AssertionError, body);
  }
  const page = await openOnce(t, phone, write('quiet.html', around('<p>quiet</p>')));
  assertQuiet(page);
});
