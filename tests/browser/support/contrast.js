// Contrast of every visible text against what lies behind it (WCAG 2.2, success criterion 1.4.3: relative luminance and
// contrast ratio as defined there). Runs in the page, behind in_page.js.
'use strict';
globalThis.lowContrast = (least) => {
  const canvas = document.createElement('canvas').getContext('2d', { willReadFrequently: true });
  canvas.canvas.width = canvas.canvas.height = 1;
  const known = new Map();

  // [red, green, blue, alpha] of any CSS colour, alpha from 0 to 1.
  function colour(css) {
    if (!known.has(css)) {
      canvas.clearRect(0, 0, 1, 1);
      canvas.fillStyle = css;
      canvas.fillRect(0, 0, 1, 1);
      const [r, g, b, a] = canvas.getImageData(0, 0, 1, 1).data;
      known.set(css, [r, g, b, a / 255]);
    }
    return known.get(css);
  }

  const over = ([r, g, b, a], [R, G, B]) => [r * a + R * (1 - a), g * a + G * (1 - a), b * a + B * (1 - a)];
  const faded = ([r, g, b, a], opacity) => [r, g, b, a * opacity];

  function luminance(rgb) {
    const [r, g, b] = rgb.map((value) =>
      value / 255 <= 0.04045 ? value / 255 / 12.92 : ((value / 255 + 0.055) / 1.055) ** 2.4,
    );
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  }

  function ratio(one, other) {
    const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b);
    return (light + 0.05) / (dark + 0.05);
  }

  function opacity(element) {
    let out = 1;
    for (let a = element; a; a = a.parentElement) out *= parseFloat(getComputedStyle(a).opacity);
    return out;
  }

  // The shapes of a drawing that were painted at a point before the text.
  function shapesUnder(text, x, y) {
    const out = [];
    for (const shape of text.ownerSVGElement.querySelectorAll('rect, path, circle, ellipse, polygon')) {
      if (!(shape.compareDocumentPosition(text) & Node.DOCUMENT_POSITION_FOLLOWING) || shape.closest('defs')) continue;
      const style = getComputedStyle(shape);
      if (style.fill === 'none' || style.fill.startsWith('url') || style.visibility !== 'visible') continue;
      if (!shape.isPointInFill(new DOMPoint(x, y).matrixTransform(shape.getScreenCTM().inverse()))) continue;
      out.push(faded(colour(style.fill), parseFloat(style.fillOpacity) * opacity(shape)));
    }
    return out;
  }

  function behind(element, box) {
    const layers = [];
    for (let a = element; a; a = a.parentElement)
      layers.unshift(faded(colour(getComputedStyle(a).backgroundColor), opacity(a)));
    if (element.ownerSVGElement) layers.push(...shapesUnder(element, box.x + box.width / 2, box.y + box.height / 2));
    return layers.reduce((below, layer) => over(layer, below), [255, 255, 255]);
  }

  function ink(element) {
    const style = getComputedStyle(element);
    return faded(
      colour(element.ownerSVGElement ? style.fill : style.color),
      opacity(element) * (element.ownerSVGElement ? parseFloat(style.fillOpacity) : 1),
    );
  }

  // What is typed into a field, and what stands in it before, are no text nodes.
  function fields() {
    const out = [];
    for (const element of document.querySelectorAll('input, select, textarea')) {
      if (!look.shown(element)) continue;
      const box = element.getBoundingClientRect();
      out.push({ text: `field ${element.name || element.id}`, element, boxes: [box] });
      if (element.placeholder)
        out.push({
          text: element.placeholder,
          element,
          boxes: [box],
          css: getComputedStyle(element, '::placeholder').color,
        });
    }
    return out;
  }

  const out = [];
  for (const text of [...look.texts(), ...fields()]) {
    const ground = behind(text.element, text.boxes[0]);
    const value = ratio(over(text.css ? colour(text.css) : ink(text.element), ground), ground);
    if (value < least) out.push(`${value.toFixed(2)}: ${look.named(text)}`);
  }
  return out;
};
