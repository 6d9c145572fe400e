// What must hold of every page for those who do not see it or do not use a mouse.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { brokenLinks, controls, headings, jumps, structureTold, untitledTables } from './structure.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core'), 'utf8');

// What axe-core objects to. Of the sheets of boxes without findings one is enough: they are made alike, and it is slow.
async function axeViolations(page) {
  await page.evaluate(`{ let module, exports, define; ${axe} }`);
  const { violations } = await page.evaluate(() =>
    globalThis.axe.run({ exclude: ['section.box.clean ~ section.box.clean'] }, { resultTypes: ['violations'] }),
  );
  return violations.map(({ id, impact, nodes }) => ({
    id,
    impact,
    nodes: nodes.map(({ html }) => html.slice(0, 160)),
  }));
}

export async function checkAccess(t, page) {
  const operated = await controls(page);
  assert.ok(operated.length > 0);
  assert.deepEqual(
    operated.filter(({ name }) => name === ''),
    [],
    'controls and pictures without a name',
  );
  const levels = await headings(page);
  assert.equal(levels.filter((level) => level === 1).length, 1, 'headings of level 1');
  assert.deepEqual(jumps(levels), [], `headings that skip a level: ${levels.join(' ')}`);
  const { shown, told } = await structureTold(page);
  assert.deepEqual(told, shown, 'headings, links and tables told to a screen reader, and those there are');
  assert.deepEqual(await untitledTables(page), []);
  assert.deepEqual(await brokenLinks(page), []);
  assert.notEqual(await page.evaluate(() => document.documentElement.lang), '');
  const violations = await axeViolations(page);
  for (const { id, impact, nodes } of violations)
    t.diagnostic(`axe-core, ${impact}: ${id} (${nodes.length}), ${nodes[0]}`);
  assert.deepEqual(
    violations.filter(({ impact }) => ['serious', 'critical'].includes(impact)),
    [],
  );
}
