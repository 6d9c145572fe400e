// The pictures of README.md: taken anew in every run, so that they can be made; stored with run.sh --accept.
// Letters come out a little otherwise on each machine, so a stored picture is held against a new one only roughly.
import assert from 'node:assert/strict';
import { existsSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { check, contextFor, open, tablet } from './support/browser.mjs';
import { boxproof, inSource, inScratch, tally } from './support/program.mjs';
import { countBox } from './support/tally_page.mjs';

const accept = process.env.BOXPROOF_ACCEPT === '1';
const mostDifferent = 0.25; // of all pixels; what two machines make of the same page stays far below
const mostBytes = 300_000;

const pictures = {
  async report(t) {
    const file = inScratch('report.html');
    boxproof('check', '--format', 'html', '--show-work', '--output', file, 'examples/saltmarsh-faults.json');
    const page = await open(await contextFor(t, { viewport: { width: 1200, height: 1000 }, deviceScaleFactor: 1.5 }), file);
    return page.screenshot({ animations: 'disabled' });
  },
  async tally(t) {
    const page = await open(await contextFor(t, tablet), tally('tally', 'examples/saltmarsh.json'));
    await countBox(page, 'A-03', { positive: 16, negative: 16, fuses: 16 });
    await countBox(page, 'A-04', { positive: 15, negative: 16, fuses: 16 });
    await page.locator('#find').tap();
    return page.screenshot({ animations: 'disabled' });
  },
};

// Sizes of two pictures, and the share of pixels that are clearly not alike.
const compare = (page, stored, made) =>
  page.evaluate(async (sources) => {
    const [one, other] = await Promise.all(sources.map(async (base64) => {
      const image = new Image();
      image.src = `data:image/png;base64,${base64}`;
      await image.decode();
      const context = Object.assign(document.createElement('canvas'), { width: image.width, height: image.height }).getContext('2d');
      context.drawImage(image, 0, 0);
      return context.getImageData(0, 0, image.width, image.height);
    }));
    const sizes = [one, other].map(({ width, height }) => `${width} x ${height}`);
    if (sizes[0] !== sizes[1]) return { sizes, differing: 1 };
    const clearly = 48; // of 255, in one of the colours
    let differing = 0;
    for (let i = 0; i < one.data.length; i += 4)
      if ([0, 1, 2].some((c) => Math.abs(one.data[i + c] - other.data[i + c]) > clearly)) ++differing;
    return { sizes, differing: differing / (one.data.length / 4) };
  }, [stored, made].map((png) => png.toString('base64')));

for (const [name, take] of Object.entries(pictures)) {
  check(`picture of the ${name} in README.md`, async (t) => {
    const made = await take(t);
    const stored = inSource(`examples/pictures/${name}.png`);
    if (accept) {
      mkdirSync(inSource('examples/pictures'), { recursive: true });
      writeFileSync(stored, made);
      t.diagnostic(`stored, ${made.length} bytes`);
    }
    assert.ok(existsSync(stored), `examples/pictures/${name}.png is missing; make it with run.sh --accept`);
    assert.ok(statSync(stored).size < mostBytes, `${statSync(stored).size} bytes`);
    assert.ok(readFileSync(inSource('README.md'), 'utf8').includes(`](examples/pictures/${name}.png)`), 'README.md shows it');
    const { sizes, differing } = await compare(await (await contextFor(t, {})).newPage(), readFileSync(stored), made);
    assert.equal(sizes[0], sizes[1]);
    t.diagnostic(`${(differing * 100).toFixed(2)} % of its pixels differ from those of this run`);
    assert.ok(differing <= mostDifferent);
  });
}
