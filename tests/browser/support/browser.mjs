// Chromium, and pages in it that are watched: whatever they complain of or ask for is kept.
import test from 'node:test';
import assert from 'node:assert/strict';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

export const desk = { viewport: { width: 1200, height: 900 } };
export const phone = { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true };
export const tablet = { viewport: { width: 820, height: 1180 }, hasTouch: true };

const launching = { executablePath: process.env.CHROMIUM, args: ['--disable-gpu', '--font-render-hinting=none'] };

// As where a screen reader runs: only then does Chromium tell of what is off the screen (content-visibility: auto).
const telling = { ...launching, args: [...launching.args, '--force-renderer-accessibility'] };

const running = new Map();
function browser(how) {
  if (!running.has(how)) running.set(how, chromium.launch(how));
  return running.get(how);
}
test.after(async () => {
  for (const one of running.values()) await (await one).close();
});

// A test of its own, with an end should the page hang.
export const check = (name, body) => test(name, { timeout: 60_000 }, body);

// What goes wrong in any page of a context, in `complaints`; no request leaves but the one for a file opened by open().
async function watch(context) {
  const complaints = [];
  const opened = new Set();
  await context.route('**/*', (route) => {
    const url = route.request().url().replace(/#.*/, '');
    if (opened.has(url)) return route.continue();
    complaints.push(`request: ${url}`);
    return route.abort();
  });
  context.on('console', (message) => complaints.push(`console ${message.type()}: ${message.text()}`));
  context.on('weberror', (error) => complaints.push(`page error: ${error.error()}`));
  for (const script of ['in_page.js', 'contrast.js'])
    await context.addInitScript({ path: fileURLToPath(new URL(script, import.meta.url)) });
  return { complaints, opened };
}

const watched = new WeakMap();

// A context that ends with the test. `options`: desk, phone, tablet, and whatever playwright knows besides.
// `screenReader`: as if one were running.
export async function contextFor(t, { screenReader = false, ...options }) {
  const context = await (
    await browser(screenReader ? telling : launching)
  ).newContext({ locale: 'en-US', reducedMotion: 'reduce', ...options });
  watched.set(context, await watch(context));
  t.after(() => context.close());
  return context;
}

// A context with a profile in a folder, which outlives it. Closed at the end of the test, if it is not before.
export async function contextWithProfile(t, profile, options) {
  const context = await chromium.launchPersistentContext(profile, {
    ...launching,
    locale: 'en-US',
    reducedMotion: 'reduce',
    ...options,
  });
  watched.set(context, await watch(context));
  t.after(() => context.close());
  return context;
}

export async function open(context, file, hash = '') {
  const url = pathToFileURL(file).href;
  watched.get(context).opened.add(url);
  const page = await context.newPage();
  page.setDefaultTimeout(10_000);
  await page.goto(url + hash);
  return page;
}

export async function openOnce(t, options, file) {
  return open(await contextFor(t, options), file);
}

// No error, warning or other message of the page, no request.
export function assertQuiet(page) {
  assert.deepEqual(watched.get(page.context()).complaints, []);
}

// The page itself does not scroll sideways.
export async function assertFitsWidth(page, width, what) {
  await page.evaluate(() => look.layOutAll());
  const wide = await page.evaluate((edge) => {
    if (document.scrollingElement.scrollWidth <= edge) return [];
    const beyond = [...document.querySelectorAll('body *')].filter(
      (element) => element.getBoundingClientRect().right > edge + 0.5 && !look.scrollsItself(element),
    );
    return [
      `${document.scrollingElement.scrollWidth} px`,
      ...beyond
        .slice(0, 8)
        .map(
          (element) =>
            `<${element.localName} id="${element.id}" class="${element.getAttribute('class') ?? ''}"> in ${element.closest('[id]')?.id ?? ''}`,
        ),
    ];
  }, width);
  assert.deepEqual(wide, [], what);
}
