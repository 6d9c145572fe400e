// What an inspector does on the tally page, by touch.

export const row = (page, id) => page.locator(`button.box-row[data-box=${JSON.stringify(id)}]`);

export async function openBox(page, id) {
  if (!(await row(page, id).isVisible())) await page.locator('#to-list').tap(); // on a phone list and box take turns
  await row(page, id).tap();
  await page.waitForFunction((wanted) => document.querySelector('#box-name')?.textContent.includes(wanted), id);
}

// What a counter shows; null where nothing is counted.
export const counted = (page, which) =>
  page.locator(`[data-count=${which}]`).evaluate((button) => {
    const shown = /\d+/.exec(button.querySelector('.now').textContent);
    return shown ? Number(shown[0]) : null;
  });

export async function tapTimes(page, which, times) {
  for (let i = 0; i < times; ++i) await page.locator(`[data-count=${which}]`).tap();
}

export async function countBox(page, id, counts) {
  await openBox(page, id);
  for (const [which, times] of Object.entries(counts)) await tapTimes(page, which, times);
}

export async function unfold(page, part) {
  const details = page.locator(`details[data-part=${part}]`);
  if (!(await details.evaluate((d) => d.open))) await details.locator('summary').first().tap();
}

// The tools behind "More": loading, clearing.
export async function showTools(page) {
  if (!(await page.locator('#load').isVisible())) await page.locator('#more').tap();
}

export async function load(page, file) {
  await showTools(page);
  await page.locator('#load').setInputFiles(file);
}

// Exports, and says what is in the file.
export async function exported(page, path) {
  const [download] = await Promise.all([page.waitForEvent('download'), page.locator('#export').tap()]);
  await download.saveAs(path);
  return download.suggestedFilename();
}

export const answer = (page, what) => page.locator(`dialog#ask [data-answer=${what}]`).tap();
