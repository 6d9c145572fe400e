// Chromium, and pages in it that are watched: whatever they complain of or ask for is kept.
import test from 'node:test';
import assert from 'node:assert/strict';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

export const desk = { viewport: { width: 1200, height: 900 } };
export const phone = { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true };
export const tablet = { viewport: { width: 820, height: 1180 }, hasTouch: true };

const launching = { executablePath: process.env.CHROMIUM, args: ['--disable-gpu', '--font-render-hinting=none'] };

let running;
const browser = () => (running ??= chromium.launch(launching));
test.after(async () => (await running)?.close());

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
  for (const script of ['in_page.js', 'contrast.js']) await context.addInitScript({ path: fileURLToPath(new URL(script, import.meta.url)) });
  return { complaints, opened };
}

const watched = new WeakMap();

// A context that ends with the test. `options`: desk, phone, tablet, and whatever playwright knows besides.
export async function contextFor(t, options) {
  const context = await (await browser()).newContext({ locale: 'en-US', reducedMotion: 'reduce', ...options });
  watched.set(context, await watch(context));
  t.after(() => context.close());
  return context;
}

// A context with a profile in a folder, which outlives it. To be closed by the caller.
export async function contextWithProfile(profile, options) {
  const context = await chromium.launchPersistentContext(profile, { ...launching, locale: 'en-US', reducedMotion: 'reduce', ...options });
  watched.set(context, await watch(context));
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
