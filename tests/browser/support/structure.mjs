// How a page is built for those who do not see it, as Chromium tells a screen reader.

// Everything that can be operated, with its role and name out of the browser's own accessibility tree.
export async function controls(page) {
  const session = await page.context().newCDPSession(page);
  const { nodes } = await session.send('Accessibility.getFullAXTree');
  await session.detach();
  const roles = [
    'button',
    'textbox',
    'searchbox',
    'combobox',
    'checkbox',
    'radio',
    'spinbutton',
    'link',
    'progressbar',
    'DisclosureTriangle',
    'img',
    'image',
    'graphics-document',
  ];
  return nodes
    .filter((node) => !node.ignored && roles.includes(node.role?.value))
    .map((node) => ({ role: node.role.value, name: node.name?.value?.trim() ?? '' }));
}

// How many headings, links and tables the page shows, and how many of them a screen reader is told of.
export async function structureTold(page) {
  const shown = await page.evaluate(() =>
    ['h1, h2, h3, h4, h5, h6', 'a[href]', 'table'].map(
      (selector) =>
        [...document.querySelectorAll(selector)].filter(
          (element) => element.checkVisibility({ visibilityProperty: true }) && !element.closest('[aria-hidden=true]'),
        ).length,
    ),
  );
  const session = await page.context().newCDPSession(page);
  const { nodes } = await session.send('Accessibility.getFullAXTree');
  await session.detach();
  return {
    shown,
    told: ['heading', 'link', 'table'].map(
      (role) => nodes.filter((node) => !node.ignored && node.role?.value === role).length,
    ),
  };
}

// The levels of the headings in their order, those for screen readers alone too.
export const headings = (page) =>
  page.evaluate(() =>
    [...document.querySelectorAll('h1, h2, h3, h4, h5, h6')]
      .filter((h) => h.checkVisibility({ visibilityProperty: true }))
      .map((h) => Number(h.localName[1])),
  );

// Levels that are more than one below the heading before them.
export const jumps = (levels) => levels.filter((level, i) => level > (levels[i - 1] ?? 0) + 1);

// Tables without a header cell for every column, and header cells that do not say what they head.
export const untitledTables = (page) =>
  page.evaluate(() =>
    [...document.querySelectorAll('table')].flatMap((table) => {
      const name = table.id || table.caption?.textContent || table.textContent.trim().slice(0, 40);
      const columns = table.tHead
        ? [...table.tHead.rows].some((row) => [...row.cells].every((cell) => cell.localName === 'th'))
        : false;
      const rows = [...table.tBodies].every((body) => [...body.rows].every((row) => row.cells[0]?.localName === 'th'));
      const unscoped = [...table.querySelectorAll('th')].filter(
        (th) => !['col', 'row', 'colgroup', 'rowgroup'].includes(th.scope),
      ).length;
      return [
        ...(columns || rows ? [] : [`${name}: no header cells`]),
        ...(unscoped ? [`${name}: ${unscoped} header cells without scope`] : []),
      ];
    }),
  );

// Links within the page that lead nowhere, and ids that stand twice.
export const brokenLinks = (page) =>
  page.evaluate(() => {
    const ids = [...document.querySelectorAll('[id]')].map((element) => element.id);
    const links = [...document.querySelectorAll('a')].map(
      (a) => a.getAttribute('href') ?? a.getAttribute('xlink:href') ?? '',
    );
    return [
      ...links.filter((href) => href.startsWith('#') && !ids.includes(decodeURIComponent(href.slice(1)))),
      ...links.filter((href) => !href.startsWith('#')).map((href) => `leads out of the page: ${href}`),
      ...ids.filter((id, i) => ids.indexOf(id) !== i).map((id) => `twice: ${id}`),
    ];
  });
