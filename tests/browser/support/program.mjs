// The program under test, and the files that go in and come out.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

const { BOXPROOF_PROGRAM: program, BOXPROOF_SOURCE: source, BOXPROOF_SCRATCH: scratch } = process.env;

// A folder of the test file's own.
const folder = mkdtempSync(path.join(scratch, 'test-'));

export const inScratch = (name) => path.join(folder, name);
export const inSource = (name) => path.join(source, name);
export const example = (name) => JSON.parse(readFileSync(inSource(`examples/${name}.json`), 'utf8'));

export function write(name, content) {
  writeFileSync(inScratch(name), typeof content === 'string' ? content : JSON.stringify(content, null, 1));
  return inScratch(name);
}

// Runs a program in the source tree, so that reports name files as the README does. Above status 1 is trouble.
export function run(command, ...args) {
  const { status, stdout, stderr, error } = spawnSync(command, args, {
    cwd: source,
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  if (error || status > 1 || status === null)
    throw new Error(`${command} ${args.join(' ')}: status ${status}\n${stderr}${error ?? ''}`);
  return stdout;
}

export const boxproof = (...args) => run(program, ...args);

// A report as a page and as JSON, from the same input.
export function report(name, ...args) {
  boxproof('check', '--format', 'html', '--output', inScratch(`${name}.html`), ...args);
  return { file: inScratch(`${name}.html`), json: JSON.parse(boxproof('check', '--format', 'json', ...args)) };
}

export function tally(name, ...args) {
  boxproof('tally', '--format', 'html', '--output', inScratch(`${name}.html`), ...args);
  return inScratch(`${name}.html`);
}
