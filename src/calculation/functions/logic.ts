/** What kind of value a cell holds, tests and choices. */
import { CellError, type Cell, type ErrorCode, type Matrix } from '../../sheet';
import { lift } from '../operators';
import { compare, failure, firstCell, read, Reference, toFlag, toNumber, type Value } from '../values';
import {
  cells,
  fn,
  gathered,
  MANY,
  numeric,
  unlessError,
  values,
  type Evaluate,
  type Family,
  type FunctionSpec,
  type Place,
} from './define';

type Args = readonly (Evaluate | undefined)[];

const evaluated = (arg: Evaluate | undefined, place: Place): Cell | Matrix | undefined =>
  arg ? read(arg(place)) : undefined;

/** IF with one condition evaluates one branch; with several, both, and takes each cell from its own. */
function choose(
  condition: Evaluate | undefined,
  then: Evaluate | undefined,
  otherwise: Evaluate | undefined,
  place: Place,
  missing: Cell,
): Value {
  const test = evaluated(condition, place) ?? null;
  if (Array.isArray(test))
    return pick(test, evaluated(then, place) ?? 0, (otherwise ? evaluated(otherwise, place) : missing) ?? 0);
  const flag = toFlag(test);
  if (typeof flag !== 'boolean') return flag;
  if (flag) return then ? then(place) : 0;
  return otherwise ? otherwise(place) : missing;
}

/** Errors in the branch that is not taken do not count. */
const pick = (test: Matrix, yes: Cell | Matrix, no: Cell | Matrix): Cell | Matrix =>
  lift([test, yes, no], ([condition, a, b]) => unlessError([toFlag(condition)], (flag) => (flag ? a : b) ?? 0), true);

function ifs(args: Args, place: Place): Value {
  if (args.length < 2) return failure('#N/A');
  const rest = args.slice(2);
  return choose(args[0], args[1], rest.length ? (at) => ifs(rest, at) : undefined, place, failure('#N/A'));
}

const replacing =
  (applies: (error: CellError) => boolean) =>
  ([value, other]: Args, place: Place): Value => {
    const given = evaluated(value, place);
    const instead = (): Cell | Matrix => evaluated(other, place) ?? '';
    if (!Array.isArray(given)) return given instanceof CellError && applies(given) ? instead() : (given ?? 0);
    if (!given.some((row) => row.some((cell) => cell instanceof CellError && applies(cell)))) return given;
    const replacement = instead();
    return given.map((row, r) =>
      row.map((cell, c) => {
        if (!(cell instanceof CellError && applies(cell))) return cell;
        return Array.isArray(replacement)
          ? (replacement[Math.min(r, replacement.length - 1)]?.[Math.min(c, replacement[0]!.length - 1)] ??
              failure('#N/A'))
          : replacement;
      }),
    );
  };

function switchOn(args: Args, place: Place): Value {
  const value = evaluated(args[0], place);
  if (Array.isArray(value)) return lift([value], ([cell]) => firstCell(switchCell(cell ?? null, args, place)));
  return switchCell(value ?? null, args, place);
}

function switchCell(value: Cell, args: Args, place: Place): Value {
  if (value instanceof CellError) return value;
  let index = 1;
  for (; index + 1 < args.length; index += 2) {
    const against = firstCell(evaluated(args[index], place));
    if (against instanceof CellError) return against;
    if (compare(value, against) === 0) return args[index + 1]?.(place) ?? 0;
  }
  return index < args.length ? (args[index]?.(place) ?? 0) : failure('#N/A');
}

/** CHOOSE with several numbers takes each cell of the result from its own choice: {1,2} puts columns side by side. */
function chooseAt([number, ...choices]: Args, place: Place): Value {
  const at = evaluated(number, place);
  const chosen = <T>(cell: Cell | undefined, of: (index: number) => T): T | CellError =>
    unlessError([toNumber(cell)], (index) =>
      index >= 1 && Math.floor(index) <= choices.length ? of(Math.floor(index) - 1) : failure('#VALUE!'),
    );
  if (!Array.isArray(at)) return chosen(at, (index) => choices[index]?.(place) ?? 0);
  return lift(
    [at, ...choices.map((choice) => evaluated(choice, place) ?? 0)],
    ([cell, ...cells]) => chosen(cell, (index) => cells[index] ?? 0),
    true,
  );
}

/** The flags among values. Texts in ranges are passed over; where there is no flag at all the result is an error. */
const all = (apply: (found: boolean[]) => boolean): FunctionSpec =>
  values(1, MANY, (...given) =>
    unlessError(
      [
        gathered(given, (cell, direct) =>
          cell === null || (typeof cell === 'string' && !direct) ? undefined : toFlag(cell),
        ),
      ],
      (flags) => (flags.length ? apply(flags) : failure('#VALUE!')),
    ),
  );

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

export const logicFunctions: Family = {
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
  IF: {
    kind: 'lazy',
    min: 2,
    max: 3,
    apply: (args, place) => choose(args[0], args[1], args[2], place, args.length > 2 ? 0 : false),
  },
  IFS: { kind: 'lazy', min: 2, max: 254, cells: (index) => index % 2 === 0, apply: ifs },
  IFERROR: { kind: 'lazy', min: 2, max: 2, cells: () => true, apply: replacing(() => true) },
  IFNA: { kind: 'lazy', min: 2, max: 2, cells: () => true, apply: replacing(({ code }) => code === '#N/A') },
  SWITCH: {
    kind: 'lazy',
    min: 3,
    max: 254,
    cells: (index, count) => index === 0 || (index % 2 === 1 && index + 1 < count),
    apply: switchOn,
  },
  CHOOSE: { kind: 'lazy', min: 2, max: 254, apply: chooseAt },
  AND: all((found) => found.every(Boolean)),
  OR: all((found) => found.some(Boolean)),
  XOR: all((found) => found.filter(Boolean).length % 2 === 1),
  NOT: cells(1, 1, (cell) => unlessError([toFlag(cell)], (flag) => !flag)),
  TRUE: cells(0, 0, () => true),
  FALSE: cells(0, 0, () => false),
  NA: cells(0, 0, () => failure('#N/A')),
};
