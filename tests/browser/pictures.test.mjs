// The pictures of README.md: taken anew in every run, so that they can be made; stored with run.sh --accept.
// Letters come out a little otherwise on each machine, so a stored picture is held against a new one only roughly.
import assert from 'node:assert/strict';
import { existsSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { check, contextFor, open, tablet } from './support/browser.mjs';
import { boxproof, inSource, inScratch, tally } from './support/program.mjs';
import { openBox } from './support/tally_page.mjs';

const accept = process.env.BOXPROOF_ACCEPT === '1';
const mostDifferent = 0.25; // what two machines make of the same page stays far below; another page is far above
const mostBytes = 300_000;

const pictures = {
  async report(t) {
    const file = inScratch('report.html');
    boxproof('check', '--format', 'html', '--show-work', '--output', file, 'examples/saltmarsh-faults.json');
    const page = await open(
      await contextFor(t, { viewport: { width: 1200, height: 1000 }, deviceScaleFactor: 1.5 }),
      file,
    );
    return page.screenshot({ animations: 'disabled' });
  },
  async tally(t) {
    const page = await open(await contextFor(t, tablet), tally('tally', 'examples/saltmarsh.json'));
    for (const [id, counts] of [
      ['A-03', [16, 16, 16]],
      ['A-04', [15, 16, 16]],
    ]) {
      await openBox(page, id);
      for (const [i, which] of ['positive', 'negative', 'fuses'].entries())
        await page.locator(`[data-number=${which}]`).fill(String(counts[i]));
    }
    await page.locator('#find').tap(); // whoever turns to something else has done counting
    await page.evaluate(() => {
      document.activeElement.blur();
      window.scrollTo(0, 0);
    });
    return page.screenshot({ animations: 'disabled' });
  },
};

// Sizes of two pictures, and how much they differ: seen from afar, as squares of 12 pixels, so that a line of text that
// moved by a pixel is the same; out of the squares that are not blank in both.
const compare = (page, stored, made) =>
  page.evaluate(
    async (sources) => {
      const square = 12;
      const images = await Promise.all(
        sources.map(async (base64) => {
          const image = new Image();
          image.src = `data:image/png;base64,${base64}`;
          await image.decode();
          return image;
        }),
      );
      const sizes = images.map(({ width, height }) => `${width} x ${height}`);
      const [width, height] = [Math.ceil(images[0].width / square), Math.ceil(images[0].height / square)];
      const [one, other] = images.map((image) => {
        const context = Object.assign(document.createElement('canvas'), { width, height }).getContext('2d');
        context.imageSmoothingQuality = 'high';
        context.drawImage(image, 0, 0, width, height);
        return context.getImageData(0, 0, width, height).data;
      });
      const [clearly, blank] = [32, 250]; // of 255, in one of the colours
      const alike = (i) => [0, 1, 2].every((c) => Math.abs(one[i + c] - other[i + c]) <= clearly);
      const empty = (i) => [0, 1, 2].every((c) => one[i + c] > blank && other[i + c] > blank);
      const inked = Array.from({ length: width * height }, (_, n) => n * 4).filter((i) => !empty(i));
      return { sizes, differing: inked.filter((i) => !alike(i)).length / inked.length };
    },
    [stored, made].map((png) => png.toString('base64')),
  );

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
    assert.ok(
      readFileSync(inSource('README.md'), 'utf8').includes(`](examples/pictures/${name}.png)`),
      'README.md shows it',
    );
    const { sizes, differing } = await compare(await (await contextFor(t, {})).newPage(), readFileSync(stored), made);
    assert.equal(sizes[0], sizes[1]);
    t.diagnostic(`${(differing * 100).toFixed(2)} % of it differs from the picture of this run`);
    assert.ok(differing <= mostDifferent);
  });
}
