// Measures that run in the page: what is shown, how large, how dark, how far to the right. Nothing here knows our pages.
'use strict';
globalThis.look = (() => {
  const shown = (element) =>
    element.checkVisibility({ opacityProperty: true, visibilityProperty: true }) && !element.closest('.unseen, .skip');

  // What the browser leaves out as long as it is off the screen (content-visibility: auto) is measured like the rest.
  function layOutAll() {
    for (const element of document.querySelectorAll('body *'))
      if (getComputedStyle(element).contentVisibility === 'auto') element.style.contentVisibility = 'visible';
  }

  // Every text that somebody sees, with the element it stands in and its boxes on the screen.
  function texts() {
    layOutAll();
    const out = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const element = node.parentElement;
      if (node.data.trim() === '' || !shown(element)) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      const boxes = [...range.getClientRects()].filter((box) => box.width > 0 && box.height > 0);
      if (boxes.length > 0) out.push({ text: node.data.trim(), element, boxes });
    }
    return out;
  }

  const named = ({ text, element }) =>
    `${element.closest('[id]')?.id ?? ''} <${element.localName} ${element.getAttribute('class') ?? ''}> ${text.slice(0, 60)}`;

  // The height of the letters as they come out: a drawing may be scaled.
  function fontSize(element) {
    const scale = element instanceof SVGGraphicsElement ? Math.abs(element.getScreenCTM().d) : 1;
    return parseFloat(getComputedStyle(element).fontSize) * scale;
  }

  const smallTexts = (least) =>
    texts()
      .filter(({ element }) => fontSize(element) < least - 0.01)
      .map((t) => `${fontSize(t.element).toFixed(1)} px: ${named(t)}`);

  // An ancestor that scrolls by itself keeps what is too wide for the page.
  function scrollsItself(element) {
    for (let a = element; a && a !== document.body; a = a.parentElement)
      if (['auto', 'scroll'].includes(getComputedStyle(a).overflowX)) return true;
    return false;
  }

  // Texts that end right of `edge`, or that an ancestor cuts off.
  function cutTexts(edge, scrollingIsFine) {
    return texts()
      .filter(
        ({ element, boxes }) =>
          boxes.some((box) => box.right > edge + 0.5 || box.left < -0.5) &&
          !(scrollingIsFine && scrollsItself(element)),
      )
      .map((t) => `${Math.max(...t.boxes.map((box) => box.right)).toFixed(1)} px: ${named(t)}`);
  }

  return { shown, layOutAll, scrollsItself, texts, named, smallTexts, cutTexts };
})();
