// Designs and records whose texts try to become part of the page.
import { example, write } from './program.mjs';

export const texts = [
  '<script>window.hacked=1</script>',
  '"><img src=x onerror=window.hacked=1>',
  "'--><svg onload=window.hacked=1>",
  '</script><script>window.hacked=1</script>',
  '</style></title><iframe srcdoc="<script>parent.hacked=1</script>"></iframe>',
  'javascript:window.hacked=1',
  '{{hacked=1}} ${window.hacked=1} &lt;b&gt; \\u003cscript\\u003e',
  'safe\u202Edesrever\u202C \u2066isolated\u2069 \u200Fmarked',
];
export const long = 'x'.repeat(10_000);

// Every text that a plan leaves free, of a design with a box for each hostile text and faults enough for findings.
export function hostileDesign() {
  const design = example('saltmarsh-faults');
  delete design.$schema;
  const all = texts.join(' ');
  design.site.name = `${all} ${long}`;
  design.site.note = design.site.temperature_source = all;
  design.site.permit.number = all;
  const base = design.combiners.find((box) => box.id === 'A-03');
  design.combiners = [...texts, long].map((text) => ({ ...base, id: text, sheet: text, location: text, note: text }));
  const renamed = (old, text) =>
    JSON.parse(JSON.stringify(design).replaceAll(JSON.stringify(old), JSON.stringify(text)));
  return write(
    'hostile.json',
    [
      ['M-450', texts[1]],
      ['INV-1', texts[0]],
      ['rhw-350', texts[3]],
      ['near', texts[2]],
    ].reduce((_, [old, text]) => Object.assign(design, renamed(old, text)), design),
  );
}

export const hostileRecord = () =>
  write('hostile-record.json', {
    format: 'boxproof-asbuilt/1',
    visit: { by: texts.join(' '), weather: long },
    boxes: [
      ...texts.map((text) => ({
        id: text,
        posted: { id: text },
        note: text,
        seen: [{ what: 'burned-bus', where: text, note: text, photo: text }],
      })),
      { id: `unplanned ${texts[1]}`, note: long },
    ],
  });
