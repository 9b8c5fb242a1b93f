/** What kind of value a cell holds. */
import { CellError, type Cell, type ErrorCode } from '../../sheet';
import { failure, firstCell, Reference } from '../values';
import { cells, fn, numeric, type Family, type FunctionSpec } from './define';

const test = (holds: (cell: Cell) => boolean): FunctionSpec =>
  cells(1, 1, (cell) => holds(cell ?? null), { takesErrors: true });
const isError = (cell: Cell): cell is CellError => cell instanceof CellError;

/** Numbers of errors. Source: Microsoft, the page on ERROR.TYPE. */
const ERROR_NUMBERS: Readonly<Record<ErrorCode, number>> = {
  '#NULL!': 1,
  '#DIV/0!': 2,
  '#VALUE!': 3,
  '#REF!': 4,
  '#NAME?': 5,
  '#NUM!': 6,
  '#N/A': 7,
  '#SPILL!': 9,
  '#CALC!': 14,
};

const parity = (wanted: number): FunctionSpec =>
  numeric(1, 1, (number) => Math.abs(Math.trunc(number)) % 2 === wanted, { takes: 'n' });

function typeOf(cell: Cell): number {
  if (typeof cell === 'string') return 2;
  if (typeof cell === 'boolean') return 4;
  return isError(cell) ? 16 : 1;
}

export const informationFunctions: Family = {
  ISBLANK: test((cell) => cell === null),
  ISNUMBER: test((cell) => typeof cell === 'number'),
  ISTEXT: test((cell) => typeof cell === 'string'),
  ISNONTEXT: test((cell) => typeof cell !== 'string'),
  ISLOGICAL: test((cell) => typeof cell === 'boolean'),
  ISERROR: test(isError),
  ISERR: test((cell) => isError(cell) && cell.code !== '#N/A'),
  ISNA: test((cell) => isError(cell) && cell.code === '#N/A'),
  ISEVEN: parity(0),
  ISODD: parity(1),
  N: fn('v', 1, ([value]) => {
    const cell = firstCell(value);
    return typeof cell === 'number' || isError(cell) ? cell : cell === true ? 1 : 0;
  }),
  TYPE: fn('v', 1, ([value]) =>
    Array.isArray(value) || (value instanceof Reference && !value.isCell) ? 64 : typeOf(firstCell(value)),
  ),
  'ERROR.TYPE': cells(
    1,
    1,
    (cell) => (isError(cell ?? null) ? ERROR_NUMBERS[(cell as CellError).code] : failure('#N/A')),
    {
      takesErrors: true,
    },
  ),
};
