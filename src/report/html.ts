/** Pieces of the report's page: text made safe, tables, figures, numbers and columns of numbers. */
import { escapeMarkup, toSvgText, type SvgNode } from '../core/markup';
import { costText, type Cost } from '../core/price';
import { writeEnglish, type Dimension, type Quantities } from '../core/quantity';

/** HTML that is safe to stand on the page: only the functions here make it. */
export type Html = { readonly html: string };

const raw = (html: string): Html => ({ html });

export const join = (...parts: readonly (Html | undefined | false)[]): Html =>
  raw(parts.flatMap((part) => (part ? [part.html] : [])).join('\n'));

const element = (tag: string, inner: string, attributes = ''): Html => raw(`<${tag}${attributes}>${inner}</${tag}>`);
export const paragraph = (text: string, kind?: 'caution' | 'note'): Html =>
  element('p', escapeMarkup(text), kind ? ` class="${kind}"` : '');
export const list = (items: readonly string[]): Html =>
  element('ul', items.map((item) => `<li>${escapeMarkup(item)}</li>`).join(''));
/** A section that a new sheet of paper begins with. */
export const sheet = (one: Html): Html => raw(one.html.replace('<section>', '<section class="sheet">'));
export const section = (heading: string, ...parts: readonly (Html | undefined | false)[]): Html =>
  element('section', `\n<h2>${escapeMarkup(heading)}</h2>\n${join(...parts).html}\n`);
export const heading = (text: string): Html => element('h1', escapeMarkup(text));
export const subheading = (text: string): Html => element('h3', escapeMarkup(text));
export const figure = (picture: SvgNode, caption?: string): Html =>
  element('figure', `${toSvgText(picture)}${caption ? `<figcaption>${escapeMarkup(caption)}</figcaption>` : ''}`);
/** Figures side by side, two to a line on paper. */
export const pair = (figures: readonly Html[]): Html =>
  element('div', figures.map(({ html }) => html).join('\n'), ' class="pair"');

/** Label and value, one below the other. */
export const facts = (rows: readonly (readonly [label: string, value: string | undefined])[]): Html =>
  element(
    'dl',
    rows
      .flatMap(([label, value]) =>
        value ? [`<div><dt>${escapeMarkup(label)}</dt><dd>${escapeMarkup(value)}</dd></div>`] : [],
      )
      .join(''),
  );

export interface Column<T> {
  readonly head: string;
  readonly unit?: string;
  /** Numbers stand at the right. */
  readonly number?: boolean;
  readonly cell: (row: T) => string;
}

export interface TableParts<T> {
  readonly caption?: string;
  readonly columns: readonly Column<T>[];
  readonly rows: readonly T[];
  /** The last line, set apart. */
  readonly total?: T;
  /** Rows to be set in bold: what is over, outside. */
  readonly stress?: (row: T) => boolean;
}

/** A table whose first column heads its rows; undefined where there is no row. */
export function table<T>({ caption, columns, rows, total, stress }: TableParts<T>): Html | undefined {
  if (rows.length === 0) return undefined;
  const kind = ({ number }: Column<T>): string => (number ? ' class="number"' : '');
  const head = columns
    .map(
      (column) =>
        `<th scope="col"${kind(column)}>${escapeMarkup(column.head)}${column.unit ? `<span class="unit">${escapeMarkup(column.unit)}</span>` : ''}</th>`,
    )
    .join('');
  const line = (row: T, looks: string): string =>
    `<tr${looks}>${columns.map((column, index) => (index === 0 ? `<th scope="row"${kind(column)}>${escapeMarkup(column.cell(row))}</th>` : `<td${kind(column)}>${escapeMarkup(column.cell(row))}</td>`)).join('')}</tr>`;
  const body = rows.map((row) => line(row, stress?.(row) ? ' class="stress"' : '')).join('\n');
  const foot = total === undefined ? '' : `<tfoot>${line(total, '')}</tfoot>`;
  return element(
    'table',
    `${caption ? `<caption>${escapeMarkup(caption)}</caption>` : ''}<thead><tr>${head}</tr></thead>\n<tbody>\n${body}\n</tbody>${foot}`,
  );
}

/**
 * The page's looks. Its size is left to the printer, A4 or Letter: the text is as wide as the margins
 * leave it, and pictures are drawn for the narrower of the two. On paper it is dark on white, whatever the screen's theme.
 */
const STYLE = `
:root { color-scheme: light dark; font: 10pt/1.4 system-ui, "Segoe UI", Roboto, "Helvetica Neue", Arial, sans-serif; --line: color-mix(in srgb, currentColor 25%, transparent); --picture-ground: Canvas; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 184mm; padding: 8mm 4mm 16mm; font-variant-numeric: tabular-nums; }
h1 { font-size: 18pt; line-height: 1.2; margin: 0 0 1mm; overflow-wrap: anywhere; }
h2 { font-size: 12.5pt; margin: 8mm 0 2mm; padding-bottom: .5mm; border-bottom: 1.5pt solid; }
h3 { font-size: 10.5pt; margin: 5mm 0 1mm; }
p { margin: 1mm 0 2mm; } ul { margin: 1mm 0; padding-left: 5mm; } li { margin: .5mm 0; overflow-wrap: anywhere; }
.note { font-size: 9pt; } .caution { border-left: 3pt solid; padding-left: 3mm; margin: 3mm 0; }
table { border-collapse: collapse; width: 100%; margin: 2mm 0 3mm; font-size: 9pt; }
caption { text-align: left; font-weight: 600; padding: 1mm 0; }
th, td { text-align: left; vertical-align: top; padding: .7mm 2.5mm .7mm 0; border-bottom: .5pt solid var(--line); font-weight: 400; }
thead th { font-weight: 600; vertical-align: bottom; border-bottom: 1pt solid; } .unit { display: block; font-weight: 400; }
th.number, td.number { text-align: right; white-space: nowrap; } th.number:last-child, td.number:last-child { padding-right: 0; }
tfoot th, tfoot td { font-weight: 600; border-top: 1pt solid; border-bottom: none; } .stress th, .stress td { font-weight: 600; }
figure { margin: 3mm 0; } figcaption { font-size: 9pt; } svg { display: block; width: 100%; height: auto; }
.pair { display: grid; grid-template-columns: repeat(auto-fit, minmax(78mm, 1fr)); gap: 4mm 8mm; }
dl { margin: 1mm 0 2mm; display: grid; grid-template-columns: repeat(auto-fit, minmax(80mm, 1fr)); gap: .5mm 6mm; } dl div { display: flex; gap: 2mm; } dt { font-weight: 600; } dt::after { content: ":"; } dd { margin: 0; overflow-wrap: anywhere; }
dt { white-space: nowrap; } .sheet { break-before: page; }
tr, figure, dl div, li { break-inside: avoid; } thead { display: table-header-group; } tfoot { display: table-row-group; } h2, h3, caption { break-after: avoid; }
@page { margin: 14mm 14mm 16mm; @bottom-right { content: counter(page) " of " counter(pages); font: 8pt system-ui, sans-serif; } }
@media print { :root { color-scheme: light; color: #000; background: #fff; } body { max-width: none; padding: 0; } }
@media screen and (max-width: 600px) { section { overflow-x: auto; } }`;

/** A whole page: everything that it needs is inside it, and nothing runs. */
export const page = (title: string, body: Html): string => `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escapeMarkup(title)}</title>
<style>${STYLE}</style>
</head>
<body>
<main>
${body.html}
</main>
</body>
</html>
`;

/** A dash where there is no number. */
export const orBlank = (value: number | undefined, places: number): string =>
  value === undefined ? '–' : writeEnglish(value, places);

/** A column of numbers without a dimension. */
export const numberColumn = <T>(
  head: string,
  unit: string | undefined,
  places: number,
  value: (row: T) => number | undefined,
): Column<T> => ({
  head,
  ...(unit === undefined ? {} : { unit }),
  number: true,
  cell: (row) => orBlank(value(row), places),
});

/** Columns of quantities given in inch-pound units, in the units of the workbook. */
export const quantityColumns =
  (say: Quantities) =>
  <T>(
    head: string,
    dimension: Dimension,
    places: number,
    value: (row: T) => number | undefined,
    unit = say.sign(dimension),
  ): Column<T> => ({
    head,
    unit,
    number: true,
    cell: (row) => {
      const quantity = value(row);
      return quantity === undefined ? '–' : say.bare(quantity, dimension, places);
    },
  });

/** A column of costs: one amount, one a currency, or that it is incomplete. */
export const costColumn = <T>(currency: string, costs: (row: T) => Cost): Column<T> => ({
  head: 'Cost',
  ...(currency === '' ? {} : { unit: currency }),
  number: true,
  cell: (row) => costText(costs(row), writeEnglish),
});
