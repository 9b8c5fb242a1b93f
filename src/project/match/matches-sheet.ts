/** The sheet Matches: read, written, and made new. A person reads it and may change it. */
import { nameKey } from '../../core/names';
import { readUnit } from '../../core/quantity';
import { textIn, type CellInput, type Edit } from '../../sheet';
import { kept, type Problem, type SheetValues } from '../reading';
import { readForm, RowReader, type FormRow } from '../rows';
import { HEADER_WITHIN } from '../../core/table';
import {
  dimensionOf,
  headersAt,
  HEADINGS,
  MATCHES,
  meaningLabel,
  MEANINGS,
  namedUnit,
  READ_AS,
  saidReadAs,
  SHEET_NAME,
  unitChoices,
  type Cells,
  type ColumnMatch,
  type ComponentFrom,
  type HeaderPlace,
  type Means,
  type ReadAs,
  type SheetMatch,
} from './meanings';

export interface Matches {
  readonly matches: readonly SheetMatch[];
  readonly problems: readonly Problem[];
}

const NONE: Matches = { matches: [], problems: [] };
type Key = (typeof MATCHES)['columns'][number]['key'];

/** Names of the sheets that are matched, as they are typed on the sheet Matches. */
export function matchedNames(matches: Cells | undefined): string[] {
  const form = matches && readForm(MATCHES, matches);
  const names = new Map((form?.rows ?? []).map(({ cells }) => [nameKey(textIn(cells.sheet)), textIn(cells.sheet)]));
  names.delete('');
  return [...names.values()];
}

/** The matches of the workbook, each with its header as it stands now. */
export const readMatches = kept((values: SheetValues): Matches => {
  const cells = values(MATCHES.sheet);
  const form = cells && readForm(MATCHES, cells);
  if (!form) return NONE;
  const reader = new RowReader(form);
  const bySheet = new Map<string, FormRow<Key>[]>();
  for (const row of form.rows) {
    const key = nameKey(textIn(row.cells.sheet));
    if (key === '') reader.problem(row, 'sheet', 'is blank; takes the name of a sheet');
    else bySheet.set(key, [...(bySheet.get(key) ?? []), row]);
  }
  const matches = [...bySheet.values()].flatMap((rows) => {
    const sheet = textIn(rows[0]!.cells.sheet);
    const list = values(sheet);
    if (list) return matchOf(sheet, list, rows, reader) ?? [];
    reader.problem(
      rows[0]!,
      'sheet',
      `there is no sheet "${sheet}", or it is empty: correct the name, or delete its rows`,
    );
    return [];
  });
  return { matches, problems: reader.problems };
});

const isComponentFrom: Readonly<Record<string, ComponentFrom>> = { [SHEET_NAME]: 'sheet', [HEADINGS]: 'headings' };

function matchOf(
  sheet: string,
  list: Cells,
  rows: readonly FormRow<Key>[],
  reader: RowReader<Key>,
): SheetMatch | undefined {
  const headerOf = (row: FormRow<Key>): string => textIn(row.cells.header);
  const named = rows.filter((row) => !Object.hasOwn(isComponentFrom, headerOf(row)));
  const place = placeOf(list, named.map(headerOf));
  if (!place) {
    const nearest = named.find((row) => !hasHeader(list, headerOf(row))) ?? named[0] ?? rows[0]!;
    reader.problem(
      nearest,
      'header',
      `no header row of ${sheet} has "${headerOf(nearest)}" with the others: type the headers as they stand there`,
    );
    return undefined;
  }
  const headers = headersAt(list, place);
  const columns = named.flatMap((row): ColumnMatch[] => {
    const header = headerOf(row);
    const means = MEANINGS.find((one) => nameKey(meaningLabel(one)) === nameKey(textIn(row.cells.means)));
    if (!means) {
      reader.problem(row, 'means', `got "${textIn(row.cells.means)}"; takes ${MEANINGS.map(meaningLabel).join(', ')}`);
      return [];
    }
    const column = headers.findIndex(({ text }) => nameKey(text) === nameKey(header));
    return [
      {
        column,
        header,
        means,
        unit: unitOf(row, header, means, reader),
        readAs: readAsOf(row, header, means, named, reader),
      },
    ];
  });
  const from = rows.map(headerOf).find((header) => Object.hasOwn(isComponentFrom, header));
  const component = from === undefined ? undefined : isComponentFrom[from];
  return {
    sheet,
    place,
    columns,
    component: columns.some(({ means }) => means === 'component') ? undefined : component,
  };
}

function unitOf(row: FormRow<Key>, header: string, means: Means, reader: RowReader<Key>): string {
  const dimension = dimensionOf(means);
  const typed = textIn(row.cells.unit);
  if (!dimension) return '';
  if (typed === '') return namedUnit(header, dimension)?.sign ?? '';
  const choices = unitChoices(means);
  const known = readUnit(typed, dimension)?.sign ?? choices.find((sign) => nameKey(sign) === nameKey(typed));
  if (known === undefined) reader.problem(row, 'unit', `got "${typed}"; takes ${choices.join(', ')}`);
  return known ?? '';
}

function readAsOf(
  row: FormRow<Key>,
  header: string,
  means: Means,
  rows: readonly FormRow<Key>[],
  reader: RowReader<Key>,
): ReadAs {
  const typed = textIn(row.cells.readAs);
  const known = READ_AS.find((one) => one === typed.toLowerCase());
  if (typed !== '' && known === undefined) reader.problem(row, 'readAs', `got "${typed}"; takes ${READ_AS.join(', ')}`);
  if (known !== undefined || means !== 'weight') return known ?? '';
  const said = saidReadAs(header);
  const counts = rows.some(({ cells }) => nameKey(textIn(cells.means)) === nameKey(meaningLabel('quantity')));
  if (said === '' && counts && typed === '')
    reader.problem(row, 'readAs', 'is blank; takes each piece or all pieces. It is counted as all pieces');
  return said;
}

/** The row, or the two rows, in which all of the headers stand. */
function placeOf(list: Cells, wanted: readonly string[]): HeaderPlace | undefined {
  if (wanted.length === 0) return undefined;
  const keys = wanted.map(nameKey);
  for (let row = 0; row < Math.min(list.length, HEADER_WITHIN); row++)
    for (const height of [1, 2] as const) {
      const there = new Set(headersAt(list, { row, height }).map(({ text }) => nameKey(text)));
      if (keys.every((key) => there.has(key))) return { row, height };
    }
  return undefined;
}

const hasHeader = (list: Cells, header: string): boolean =>
  list
    .slice(0, HEADER_WITHIN)
    .some((_, row) => headersAt(list, { row, height: 1 }).some(({ text }) => nameKey(text) === nameKey(header)));

/** The rows of the sheet Matches that keep a match. */
export function matchRows({ sheet, columns, component }: SheetMatch): string[][] {
  const from = component === 'sheet' ? SHEET_NAME : component === 'headings' ? HEADINGS : undefined;
  return [
    ...columns.map(({ header, means, unit, readAs }) => [sheet, header, meaningLabel(means), unit, readAs]),
    ...(from === undefined ? [] : [[sheet, from, meaningLabel('component'), '', '']]),
  ];
}

export const MATCH_LABELS: readonly string[] = MATCHES.columns.map(({ label }) => label);

const NOTES = [
  'What the columns of your own lists mean: one row a column. You may change a row, or delete those of a sheet.',
  'Read as: "each piece" multiplies a weight or cost by the quantity, "all pieces" does not. A blank component is "as above" where that is said.',
];
const HEADER = 3;

/**
 * The edits that keep matches, in place of what was kept of the same sheets.
 * @param there the sheet's cells; undefined where there is none
 */
export function matchEdits(there: Cells | undefined, matches: readonly SheetMatch[]): Edit[] {
  const form = there && readForm(MATCHES, there);
  const again = new Set(matches.map(({ sheet }) => nameKey(sheet)));
  const rows: CellInput[][] = matches.flatMap(matchRows);
  const at = (row: number, column: number, height: number, columns: number) => ({
    sheet: MATCHES.sheet,
    row,
    column,
    rows: height,
    columns,
  });
  if (form) {
    const places = MATCHES.columns.map(({ key }) => form.columns[key]);
    const kept = form.rows.filter(({ cells }) => !again.has(nameKey(textIn(cells.sheet))));
    const lines = [
      ...kept.map(({ cells }) => MATCHES.columns.map(({ key }): CellInput => (cells[key] as CellInput) ?? null)),
      ...rows,
    ];
    const height = Math.max(lines.length, there.length - form.header - 1);
    return places.flatMap((column, index): Edit[] =>
      column === undefined
        ? []
        : [
            {
              kind: 'write',
              range: at(form.header + 1, column, height, 1),
              cells: Array.from({ length: height }, (_, row) => [lines[row]?.[index] ?? null]),
            },
          ],
    );
  }
  const width = MATCHES.columns.length;
  return [
    ...(there ? [] : [{ kind: 'addSheet', name: MATCHES.sheet } as const]),
    { kind: 'write', range: at(0, 0, NOTES.length, 1), cells: NOTES.map((note) => [note]) },
    { kind: 'write', range: at(HEADER, 0, rows.length + 1, width), cells: [[...MATCH_LABELS], ...rows] },
    { kind: 'format', range: at(HEADER, 0, 1, width), bold: true, fill: '#e8e6df' },
    { kind: 'format', range: at(HEADER + 1, 0, rows.length, width), fill: '#fffbea' },
    ...[18, 24, 14, 10, 14].map((columnWidth, column): Edit => ({
      kind: 'format',
      range: at(0, column, 1, 1),
      columnWidth,
    })),
  ];
}
