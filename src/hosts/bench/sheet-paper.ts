/** The sheet in view as a table on paper: the grid itself is a drawing of what fits the window, and prints as a blank. */
import { escapeMarkup } from '../../core/markup';
import type { CellModel, RangeAddress, SheetModel, StyleModel } from '../../sheet';
import { shownText, toPixels, USUAL_WIDTH } from '../univer';

/** Class of the element around the table. */
export const SHEET_PAPER = 'sheet-paper';

/** Pixels of a page's width: landscape, the narrower of A4 and US Letter, less margins of half an inch, at 96 to an inch. */
const PAGE_PX = 10 * 96;

export const SHEET_PAPER_STYLES = `@page { size: landscape; margin: 0.5in }
@media print {
  .${SHEET_PAPER} { color: #000; background: #fff; font: 11pt/1.25 sans-serif; print-color-adjust: exact; -webkit-print-color-adjust: exact }
  .${SHEET_PAPER} h1 { font-size: 11pt; font-weight: normal; margin: 0 0 6pt; color: #555 }
  .${SHEET_PAPER} table { border-collapse: collapse; table-layout: fixed }
  .${SHEET_PAPER} td { padding: 1px 3px; vertical-align: bottom; white-space: pre; overflow: visible; border: 0.5px solid #ddd; font-variant-numeric: tabular-nums }
  .${SHEET_PAPER} table.above td { border-color: transparent }
  .${SHEET_PAPER} td.cut { overflow: hidden }
  .${SHEET_PAPER} td.wrap { white-space: pre-wrap; overflow-wrap: break-word; vertical-align: top }
  .${SHEET_PAPER} tr { break-inside: avoid }
}`;

/** The printed part of a sheet as HTML; undefined where nothing is on it. */
export function sheetPaper(sheet: SheetModel, styles: readonly StyleModel[], title: string): string | undefined {
  const used = usedPart(sheet);
  if (!used) return undefined;
  const columns = shown(used.columns, sheet.hiddenColumns);
  const rows = shown(used.rows, sheet.hiddenRows);
  const widths = columns.map((column) => toPixels(sheet.columnWidths?.[column] ?? USUAL_WIDTH));
  const total = widths.reduce((sum, width) => sum + width, 0);
  const writer = new Rows(sheet, styles, columns);
  const header = (sheet.frozen?.rows ?? 0) - 1;
  const table = (kind: string, above: readonly number[], below: readonly number[]): string =>
    above.length + below.length === 0
      ? ''
      : `<table class="${kind}" style="width:${total}px"><colgroup>${widths.map((width) => `<col style="width:${width}px">`).join('')}</colgroup>${above.length ? `<thead>${above.map((row) => writer.row(row)).join('')}</thead>` : ''}<tbody>${below.map((row) => writer.row(row)).join('')}</tbody></table>`;
  return [
    `<h1>${escapeMarkup(`${title}: ${sheet.name}`)}</h1>`,
    `<div style="zoom:${zoomFor(total, columns.length)}">`,
    // A browser repeats a table's head on every page: what stands above it is a table of its own.
    table(
      'above',
      [],
      rows.filter((row) => row < header),
    ),
    table(
      'cells',
      rows.filter((row) => row === header),
      rows.filter((row) => row > header),
    ),
    '</div>',
  ].join('');
}

/** So small that the columns go on a page. A browser rounds the width of each to its own pixels. */
const zoomFor = (total: number, columns: number): number =>
  Math.min(1, Math.floor(((PAGE_PX - columns) / total) * 1000) / 1000);

const shown = (count: number, hidden: readonly number[] = []): number[] => {
  const left = new Set(hidden);
  return Array.from({ length: count }, (_line, index) => index).filter((index) => !left.has(index));
};

const isShown = (cell: CellModel | undefined): cell is CellModel =>
  cell !== undefined && cell.value !== null && cell.value !== '';

/** Rows and columns from A1 that show something: waiting rows whose formulas give an empty text are not printed. */
function usedPart({ cells }: SheetModel): { readonly rows: number; readonly columns: number } | undefined {
  const rows = cells.findLastIndex((line) => line.some(isShown)) + 1;
  const columns = cells.reduce((most, line) => Math.max(most, line.findLastIndex(isShown) + 1), 0);
  return rows ? { rows, columns } : undefined;
}

/** Rows of the table, with merged cells as one. */
class Rows {
  /** The merged cells that a cell belongs to. */
  private readonly merges = new Map<string, RangeAddress>();

  constructor(
    private readonly sheet: SheetModel,
    private readonly styles: readonly StyleModel[],
    private readonly columns: readonly number[],
  ) {
    for (const merge of sheet.merges ?? [])
      for (let row = merge.row; row < merge.row + merge.rows; row++)
        for (let column = merge.column; column < merge.column + merge.columns; column++)
          this.merges.set(key(row, column), merge);
  }

  row(row: number): string {
    const line = this.sheet.cells[row] ?? [];
    return `<tr>${this.columns.map((column, index) => this.cell(row, column, line[column], line[this.columns[index + 1] ?? -1])).join('')}</tr>`;
  }

  private cell(row: number, column: number, cell: CellModel | undefined, next: CellModel | undefined): string {
    const merge = this.merges.get(key(row, column));
    // The first of them stands for all.
    if (merge && (merge.row !== row || merge.column !== column)) return '';
    const spans = merge
      ? ` colspan="${this.columns.filter((one) => one >= column && one < column + merge.columns).length}" rowspan="${merge.rows}"`
      : '';
    const style = (cell?.style === undefined ? undefined : this.styles[cell.style]) ?? {};
    const kind = style.wrap ? ' class="wrap"' : isShown(next) || merge ? ' class="cut"' : '';
    return `<td${kind}${spans} style="${looks(cell, style)}">${escapeMarkup(shownText(cell?.value ?? null, style.numberFormat))}</td>`;
  }
}

const key = (row: number, column: number): string => `${row},${column}`;

const COLOR = /^#[0-9a-f]{6}$/i;

function looks(cell: CellModel | undefined, style: StyleModel): string {
  const { value } = cell ?? {};
  const usual =
    typeof value === 'number'
      ? 'right'
      : typeof value === 'string' || value === undefined || value === null
        ? 'left'
        : 'center';
  return [
    `text-align:${style.align ?? usual}`,
    style.bold && 'font-weight:bold',
    style.italic && 'font-style:italic',
    style.size && `font-size:${style.size}pt`,
    style.color && COLOR.test(style.color) && `color:${style.color}`,
    style.fill && COLOR.test(style.fill) && `background:${style.fill}`,
    style.borderBottom && 'border-bottom:1px solid #808080',
  ]
    .filter(Boolean)
    .join(';');
}
