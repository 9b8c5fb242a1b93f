/** A workbook's bytes → the plain model. */
import {
  parseRange,
  showsDate,
  type CellModel,
  type ChoiceValidation,
  type FilterModel,
  type NameModel,
  type RangeAddress,
  type SheetModel,
  type TableModel,
  type WorkbookModel,
} from '../sheet';
import { XlsxError } from './error';
import { fromFile, seenNames } from './formula-text';
import { Package } from './package';
import { readFilter } from './filters';
import { readSharedStrings } from './read-strings';
import { readSheet, type RawValidation, type SheetContext, type SheetParts } from './read-sheet';
import { readStyles } from './read-styles';
import { readWorkbookPart, type WorkbookPart } from './workbook-part';
import { readTable } from './tables';
import type { Codec } from './zip';
import { references, replaced } from '../sheet/formula';

/**
 * Reads an .xlsx file: values, formulas as they are typed (shared ones written out, arrays with their
 * spill), the looks that the model carries, tables, names and drop-down lists. Dates come as days since
 * 1900, also from a file that counts from 1904. Throws XlsxError.
 */
export function readWorkbook(bytes: Uint8Array, codec?: Codec): WorkbookModel {
  const file = new Package(bytes, codec);
  const workbook = readWorkbookPart(file);
  if (!workbook.sheets.length) throw new XlsxError('corrupt', 'The workbook has no sheets');
  const styles = stylesOf(file, workbook);
  const strings = workbook.strings ? readSharedStrings(file.text(workbook.strings)) : [];
  const read = workbook.sheets.map(({ name, part }) =>
    readSheet(file.text(part), contextOf(workbook, styles, strings, name)),
  );
  const sheets = workbook.sheets.map((sheet, index) => toSheet(file, sheet, read[index]!));
  const values = new Map(sheets.map((sheet) => [sheet.name, sheet]));
  return {
    sheets: sheets.map((sheet, index) => withValidations(sheet, read[index]!.validations, values)),
    names: workbook.names.map(({ name, refersTo, scope }): NameModel => ({
      name,
      refersTo: fromFile(
        refersTo,
        seenNames(() => ({ names: workbook.names, tables: [] }), scope),
      ),
      ...(scope === undefined ? {} : { scope }),
    })),
    styles,
    ...(workbook.dates1904 ? { dates1904: true } : {}),
  };
}

/** The looks that cells go by. */
export const stylesOf = (file: Package, { styles, theme }: WorkbookPart): WorkbookModel['styles'] =>
  styles ? readStyles(file.text(styles), theme && file.has(theme) ? file.text(theme) : undefined) : [];

/** What the cells of a sheet are read with. */
export const contextOf = (
  { names, dates1904 }: WorkbookPart,
  styles: WorkbookModel['styles'],
  strings: readonly string[],
  name: string,
): SheetContext => ({
  name,
  strings,
  shifted: dates1904 ? styles.map((style) => showsDate(style.numberFormat ?? '')) : [],
  isName: seenNames(() => ({ names, tables: [] }), name),
});

function toSheet(file: Package, sheet: WorkbookPart['sheets'][number], parts: SheetParts): SheetModel {
  const tableTexts = file.related(sheet.part, 'table').map((part) => file.text(part));
  const tables = tableTexts.flatMap((text) => readTable(text, sheet.name) ?? []);
  nameImpliedTables(parts.cells, tables);
  const filters = filtersOf(sheet.name, parts.filter, tableTexts);
  const filtered = filters.some(({ columns }) => columns.length > 0);
  return {
    name: sheet.name,
    ...(sheet.hidden ? { hidden: true } : {}),
    ...(parts.isProtected ? { protected: true } : {}),
    cells: parts.cells,
    ...(parts.columnWidths.length ? { columnWidths: parts.columnWidths } : {}),
    ...(parts.frozen ? { frozen: parts.frozen } : {}),
    ...(parts.merges.length ? { merges: parts.merges } : {}),
    ...(parts.hiddenRows.length ? { hiddenRows: parts.hiddenRows } : {}),
    ...(parts.rowHeights.size ? { rowHeights: parts.rowHeights } : {}),
    ...(parts.hiddenColumns.length ? { hiddenColumns: parts.hiddenColumns } : {}),
    ...(parts.tabColor ? { tabColor: parts.tabColor } : {}),
    ...(filtered ? { filtered } : {}),
    ...(filters.length ? { filters } : {}),
    ...(parts.cells.length === 0 && file.relationships(sheet.part).some(({ type }) => type !== 'table')
      ? { holdsMore: true }
      : {}),
    tables,
  };
}

/** The sheet's own filter, and those of its tables that hide rows. */
function filtersOf(sheet: string, own: FilterModel | undefined, tables: readonly string[]): FilterModel[] {
  const ofTables = tables.flatMap((text): FilterModel[] => {
    const table = text.includes('filterColumn') ? readTable(text, sheet) : undefined;
    const filter = table && readFilter(text, sheet, table.name);
    return filter?.columns.length ? [filter] : [];
  });
  return [...(own ? [own] : []), ...ofTables];
}

function withValidations(
  sheet: SheetModel,
  raw: readonly RawValidation[],
  sheets: ReadonlyMap<string, SheetModel>,
): SheetModel {
  const validations = raw.flatMap(({ range, source, open }): ChoiceValidation[] => {
    const from = source.startsWith('"') ? undefined : placeIn(source, sheet.name);
    const choices = source.startsWith('"')
      ? source.slice(1, -1).replaceAll('""', '"').split(',')
      : choicesIn(from, sheets);
    if (choices.length === 0) return [];
    const kind = { ...(from ? { from } : {}), ...(open ? { open } : {}) };
    return [{ range, choices: choices.map((choice) => choice.trim()), ...kind }];
  });
  return validations.length ? { ...sheet, validations } : sheet;
}

/** The cells that a list's source names, on its own sheet where it names none; undefined for any other formula. */
function placeIn(source: string, sheet: string): RangeAddress | undefined {
  const match = /^(?:(?:'((?:[^']|'')+)'|([^!']+))!)?([$A-Z0-9:]+)$/i.exec(source);
  const name = match?.[1]?.replaceAll("''", "'") ?? match?.[2] ?? sheet;
  return match ? parseRange(match[3]!, name) : undefined;
}

/** Choices that stand in a range: the texts of its cells, each once. */
function choicesIn(range: RangeAddress | undefined, sheets: ReadonlyMap<string, SheetModel>): string[] {
  const cells = range && sheets.get(range.sheet)?.cells;
  if (!range || !cells || range.rows * range.columns > 10_000) return [];
  const lines = cells.slice(range.row, range.row + range.rows);
  const found = lines.flatMap((line) => line.slice(range.column, range.column + range.columns));
  return [...new Set(found.map((cell) => String(cell?.value ?? '')))].filter((text) => text !== '');
}

/** Puts the names of tables into the formulas of their cells, in place: spreadsheet programs show them so, and not every engine can do without. */
function nameImpliedTables(cells: readonly (CellModel | undefined)[][], tables: readonly TableModel[]): void {
  for (const { name, range, totals } of tables) {
    const bottom = range.row + range.rows + (totals ? 1 : 0);
    for (let row = range.row; row < bottom; row++) {
      const line = cells[row];
      for (let column = range.column; line && column < range.column + range.columns; column++) {
        const cell = line[column];
        if (cell?.formula?.includes('[')) line[column] = { ...cell, formula: withTableName(cell.formula, name) };
      }
    }
  }
}

const withTableName = (formula: string, table: string): string =>
  replaced(
    formula,
    references(formula).flatMap((reference) =>
      reference.kind === 'table' && reference.table === '' && !reference.isElsewhere
        ? [{ start: reference.start, end: reference.start, text: table }]
        : [],
    ),
  );
