/**
 * Functions over a list with headings whose rows are chosen by a range of conditions: conditions in one row hold together,
 * its rows are alternatives. Source: Microsoft, the pages on DSUM and its like; OpenFormula 1.3, 6.9 (Database Functions).
 */
import { CellError, type Cell, type Matrix } from '../../sheet';
import { criterion } from '../criteria';
import { failure, firstCell, toMatrix, type Value } from '../values';
import { aggregated } from './aggregates';
import { fn, textOf, unlessError, type Family, type FunctionSpec } from './define';

const sameHeading = (a: Cell, b: Cell): boolean => textOf(a).trim().toLowerCase() === textOf(b).trim().toLowerCase();

/** A text alone asks for what begins with it. */
const conditionOf = (cell: Cell): ((value: Cell) => boolean) => {
  const isBare =
    typeof cell === 'string' && cell !== '' && !/^[<>=]/.test(cell) && criterion(cell).key?.startsWith('t');
  return criterion(isBare ? `${cell}*` : cell).test;
};

function chosenRows(list: Matrix, conditions: Matrix): Cell[][] | CellError {
  const [headings = [], ...rows] = list;
  const [asked = [], ...alternatives] = conditions;
  if (!alternatives.length) return failure('#VALUE!');
  const places = asked.map((name) =>
    name === null ? -1 : headings.findIndex((heading) => sameHeading(heading, name)),
  );
  const tests = alternatives.map((line) =>
    line.flatMap((cell, index) =>
      cell === null || places[index]! < 0 ? [] : [{ at: places[index]!, holds: conditionOf(cell) }],
    ),
  );
  return rows.filter((row) => tests.some((all) => all.every(({ at, holds }) => holds(row[at] ?? null))));
}

/** The column by its heading or its number from 1; undefined where no field is named. */
function columnOf(list: Matrix, field: Value): number | undefined | CellError {
  const asked = firstCell(field);
  if (field === undefined || asked === null) return undefined;
  if (asked instanceof CellError) return asked;
  const width = list[0]?.length ?? 0;
  const place =
    typeof asked === 'number'
      ? Math.trunc(asked) - 1
      : (list[0] ?? []).findIndex((heading) => sameHeading(heading, asked));
  return place >= 0 && place < width ? place : failure('#VALUE!');
}

const over = (apply: (cells: Cell[]) => Cell, needsField = true): FunctionSpec =>
  fn('vvv', 3, ([list, field, conditions]) => {
    const block = toMatrix(list);
    return unlessError([columnOf(block, field)], (column) => {
      if (column === undefined && needsField) return failure('#VALUE!');
      return unlessError([chosenRows(block, toMatrix(conditions))], (rows) =>
        apply(column === undefined ? rows.map(() => 1) : rows.map((row) => row[column] ?? null)),
      );
    });
  });

const aggregate = (name: string): FunctionSpec => over((cells) => aggregated(name, [[cells]]));

export const databaseFunctions: Family = {
  DSUM: aggregate('SUM'),
  DAVERAGE: aggregate('AVERAGE'),
  DMAX: aggregate('MAX'),
  DMIN: aggregate('MIN'),
  DPRODUCT: aggregate('PRODUCT'),
  DSTDEV: aggregate('STDEV'),
  DSTDEVP: aggregate('STDEVP'),
  DVAR: aggregate('VAR'),
  DVARP: aggregate('VARP'),
  DCOUNT: over((cells) => cells.filter((cell) => typeof cell === 'number').length, false),
  DCOUNTA: over((cells) => cells.filter((cell) => cell !== null).length, false),
  DGET: over((cells) =>
    cells.length === 0 ? failure('#VALUE!') : cells.length > 1 ? failure('#NUM!') : (cells[0] ?? 0),
  ),
};
