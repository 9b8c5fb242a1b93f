/** The edits that add the sheet Rivets: the builder's own rivets as a table, which the joints' formulas look into. */
import { OWN_COLUMNS, OWN_KINDS, type OwnColumn, type OwnKey } from '../../core/fastener';
import { fromInch, labelIn, type UnitSystem } from '../../core/quantity';
import { columnName, type CellInput, type Edit, type RangeAddress } from '../../sheet';
import { OWN_RIVETS_SHEET } from '../own-rivets';
import { type FilledSheet, choicesWidth, labelWidth, LOOKS } from './plan';

/** Name of the table: the joints' formulas pass `Rivets[#All]`. */
export const OWN_RIVET_TABLE = 'Rivets';

/** Rows of the table that wait. */
const ROWS = 30;

const COLUMNS = Object.entries(OWN_COLUMNS) as [OwnKey, OwnColumn][];

/** The table's header row in a system of units. */
const ownRivetLabels = (units: UnitSystem): string[] =>
  COLUMNS.map(([, { label, dimension }]) => labelIn(label, units, dimension));

/** A blind rivet of a size that no example joint has, weighed by a sample. */
const EXAMPLE: Readonly<Partial<Record<OwnKey, string | number>>> = {
  label: 'EXAMPLE-5-2',
  kind: 'blind',
  diameter: 5 / 32,
  gripMin: 0.063,
  gripMax: 0.125,
  pieces: 50,
  grams: 62,
  shear: 310,
  source: 'invented example, put your own',
};

/** Fills an empty sheet Rivets, or adds it. */
export function newRivetsSheet(units: UnitSystem, examples: boolean, add: boolean): FilledSheet {
  const labels = ownRivetLabels(units);
  const range: RangeAddress = { sheet: OWN_RIVETS_SHEET, row: 0, column: 0, rows: ROWS + 1, columns: labels.length };
  const example = COLUMNS.map(([key, { dimension }]): CellInput => {
    const value = EXAMPLE[key] ?? null;
    return typeof value === 'number' && dimension ? Number(fromInch(value, dimension, units).toPrecision(12)) : value;
  });
  const blank = COLUMNS.map((): CellInput => null);
  const rows = Array.from({ length: ROWS }, (_row, index) => (examples && index === 0 ? example : blank));
  const below = { ...range, row: 1, rows: ROWS };
  const kind = COLUMNS.findIndex(([key]) => key === 'kind');
  const edits: Edit[] = [
    ...(add ? [{ kind: 'addSheet', name: OWN_RIVETS_SHEET } as const] : []),
    { kind: 'write', range, cells: [labels, ...rows] },
    { kind: 'addTable', name: OWN_RIVET_TABLE, range },
    { kind: 'format', range: { ...range, rows: 1 }, ...LOOKS.header },
    { kind: 'format', range: below, ...LOOKS.text },
    { kind: 'choices', range: { ...below, column: kind, columns: 1 }, choices: OWN_KINDS },
    ...labels.map((label, column): Edit => ({
      kind: 'format',
      range: { ...range, column, columns: 1 },
      columnWidth: Math.max(
        column === 0 ? 18 : column === labels.length - 1 ? 30 : 9,
        labelWidth(label),
        column === kind ? choicesWidth(OWN_KINDS) : 0,
      ),
    })),
    { kind: 'freeze', sheet: OWN_RIVETS_SHEET, rows: 1, columns: 1 },
  ];
  return {
    edits,
    exampleRows: examples ? 1 : 0,
    typed: `A2:${columnName(labels.length - 1)}${ROWS + 1}`,
    first: { ...below, rows: 1, columns: 1 },
  };
}
