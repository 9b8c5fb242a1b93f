/**
 * Whatever a spreadsheet host can hand over, and arguments that a function is likely to take.
 *
 * Nothing here names a function: what is likely follows from a definition's parameters and from the
 * examples of the whole catalogue, so that a new definition is covered as it is.
 */
import fc from 'fast-check';
import { catalogue, type Definition, type Parameter } from '../../src/functions';
import { CellError, isErrorCode, type Argument, type Cell, type Matrix } from '../../src/sheet';

// ---- single cells ----

const anyNumber: fc.Arbitrary<number> = fc.oneof(
  fc.double({ min: -1e4, max: 1e4, noNaN: true }),
  fc.integer({ min: -20, max: 200 }),
  fc.constantFrom(0, -0, 1, -1, 0.5, 1 / 3, 0.1 + 0.2, 25.4, 90, 180, 360),
  fc.constantFrom(
    Number.NaN,
    Infinity,
    -Infinity,
    Number.MAX_VALUE,
    -Number.MAX_VALUE,
    1e308,
    1e100,
    1e16,
    2 ** 53,
    Number.MIN_VALUE,
    1e-300,
    1e-12,
    -1e-12,
  ),
  // Days since 1900, with and without a time of day.
  fc.integer({ min: 36_526, max: 55_000 }),
  fc.constantFrom(45_292.75, 2_958_465, 60),
);

const WORDS: readonly string[] = [
  ...new Set(
    catalogue.flatMap(({ parameters }) =>
      parameters.flatMap((parameter) => [parameter.name, ...(parameter.choices ?? [])]),
    ),
  ),
];
const PROTOTYPE_NAMES = [
  '__proto__',
  'constructor',
  'toString',
  'valueOf',
  'hasOwnProperty',
  'prototype',
  '3 constructor',
  '1/2 toString',
  '__proto__.polluted',
  '5 valueOf',
];
const FORMULAS = [
  '=1+1',
  '=cmd|"/c calc"!A1',
  '+1+1',
  '-1+1',
  '@SUM(A1:A9)',
  '\t=1',
  "'=1",
  '=HYPERLINK("x","y")',
  '{=1}',
  '"',
  '""',
  "'",
  ',',
  ';',
];
const NUMBERS_IN_TEXT = [
  '12',
  '-3.5',
  '.032',
  '1e-3',
  '1E400',
  '3/32',
  '1 1/2',
  '1-1/2',
  '-1/4',
  '1/0',
  '0/0',
  '1,5',
  '1.234,5',
  '1_000',
  '0x10',
  '12 in',
  '12"',
  '5 mm',
  '3 ft',
  '2 lb',
  '1 kg',
  '7 %',
  '50%',
  '12 parsec',
  'NaN',
  'Infinity',
  '-0',
  '１２',
  '٣',
];
const UNICODE = [
  'é',
  'Ω',
  '½',
  '∞',
  '−5',
  '12″',
  '🛩️',
  'مرحبا',
  '\u0000',
  '\uFEFF',
  '\u200B',
  '\uD800',
  '\u00A0',
  '\n',
  'a\r\nb',
  'İ',
  'ß',
];

const anyText: fc.Arbitrary<string> = fc.oneof(
  fc.constantFrom(...WORDS).chain(inAnyCase),
  fc.constantFrom(...NUMBERS_IN_TEXT),
  fc.constantFrom(...PROTOTYPE_NAMES),
  fc.constantFrom(...FORMULAS),
  fc.constantFrom(...UNICODE),
  fc.constantFrom(' ', '   ', '\t', 'TRUE', 'false', 'yes', '#N/A', '#VALUE!', 'null', 'undefined', 'seven', '#REF!'),
  fc.string({ maxLength: 12 }),
  fc.string({ unit: 'grapheme', maxLength: 6 }),
  fc
    .tuple(fc.constantFrom('x', '9', '1/', ' ', 'A-', '((', '\u{1F6E9}'), fc.constantFrom(100, 32_767))
    .map(([piece, count]) => piece.repeat(count)),
);

function inAnyCase(word: string): fc.Arbitrary<string> {
  return fc.constantFrom(
    word,
    word.toUpperCase(),
    word.toLowerCase(),
    ` ${word} `,
    word.replace(/^./, (first) => first.toUpperCase()),
    word.split('').join(' '),
  );
}

/** A word as somebody may write it: it still is the word. */
const spelled = (word: string): fc.Arbitrary<string> =>
  fc.constantFrom(word, word.toUpperCase(), word.toLowerCase(), ` ${word} `);

const ERROR_CODES = ['#VALUE!', '#N/A', '#NUM!', '#REF!', '#NAME?', '#DIV/0!', '#NULL!', '#SPILL!', '#CALC!'].filter(
  isErrorCode,
);

/** Errors as hosts hand them over: the code alone; the headless calculator keeps the message of an earlier formula. */
const anyError: fc.Arbitrary<CellError> = fc
  .constantFrom(...ERROR_CODES)
  .chain((code) =>
    fc.constantFrom(new CellError(code), new CellError(code, 'thickness: got -1; takes inches above 0 and up to 1')),
  );

/** undefined is no cell by its type, but a host's sparse array has it. */
const anyBlank = fc.constantFrom(null, undefined as unknown as null, '');

const anyCell: fc.Arbitrary<Cell> = fc.oneof(
  { weight: 5, arbitrary: anyNumber },
  { weight: 5, arbitrary: anyText },
  { weight: 1, arbitrary: fc.boolean() },
  { weight: 2, arbitrary: anyBlank },
  { weight: 1, arbitrary: anyError },
);

// ---- blocks of cells ----

const blockOf = (cell: fc.Arbitrary<Cell>, rows: number, columns: number): fc.Arbitrary<Matrix> =>
  fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), { minLength: rows, maxLength: rows });

/** Columns, rows and rectangles of any cells, and what no host should give: nothing, rows of nothing, ragged rows. */
const anyBlock: fc.Arbitrary<Matrix> = fc.oneof(
  { weight: 4, arbitrary: fc.integer({ min: 1, max: 6 }).chain((rows) => blockOf(anyCell, rows, 1)) },
  { weight: 2, arbitrary: fc.integer({ min: 1, max: 6 }).chain((columns) => blockOf(anyCell, 1, columns)) },
  {
    weight: 3,
    arbitrary: fc
      .tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 2, max: 7 }))
      .chain(([rows, columns]) => blockOf(anyCell, rows, columns)),
  },
  { weight: 1, arbitrary: fc.array(fc.array(anyCell, { maxLength: 4 }), { maxLength: 4 }) },
  {
    weight: 1,
    arbitrary: fc.constantFrom<Matrix[]>([], [[]], [[], []], [[null]], [['']], [[null], [null]], [[0], [0], [0]]),
  },
);

const anyArgument: fc.Arbitrary<Argument> = fc.oneof(
  { weight: 3, arbitrary: anyCell },
  { weight: 2, arbitrary: anyBlock },
);

// ---- what a parameter takes ----

/** The arguments that the examples of the catalogue give a parameter of this name. */
const EXAMPLES = new Map<string, Argument[]>();
for (const { parameters, examples } of catalogue) {
  for (const { args } of examples) {
    args.forEach((argument, index) => {
      const name = parameters[index]!.name;
      if (argument !== null) EXAMPLES.set(name, [...(EXAMPLES.get(name) ?? []), argument]);
    });
  }
}

/** A number within limits, with as many small magnitudes as large ones, and sometimes a limit itself. */
function numberFor({ kind, limits }: Pick<Parameter, 'kind' | 'limits'>): fc.Arbitrary<number> {
  const low = limits?.min ?? limits?.above ?? -1e6;
  const high = limits?.max ?? limits?.below ?? 1e6;
  const most = Math.max(Math.abs(low), Math.abs(high));
  const usual = Math.min(most, 300);
  const within = (value: number): number => {
    const inside = value < low || value > high ? low + (Math.abs(value) % (high - low)) : value;
    // Smaller numbers than a builder can mean are among anyNumber.
    return kind === 'integer' ? Math.round(inside) : Math.abs(inside) < 1e-9 ? 0 : inside;
  };
  return fc.oneof(
    {
      weight: 12,
      arbitrary: fc
        .double({ min: Math.log(usual) - 8, max: Math.log(usual), noNaN: true })
        .map((power) => within(Number(Math.exp(power).toPrecision(6)))),
    },
    {
      weight: 3,
      arbitrary: fc.double({ min: Math.max(low, -usual), max: Math.min(high, usual), noNaN: true }).map(within),
    },
    { weight: 1, arbitrary: fc.constantFrom(low, high, low + (high - low) / 2).map(within) },
  );
}

/** One cell of a kind that the parameter takes. */
export function cellFor(parameter: Parameter): fc.Arbitrary<Cell> {
  const known = (EXAMPLES.get(parameter.name) ?? []).flatMap((argument): Cell[] =>
    Array.isArray(argument) ? argument.flat() : [argument ?? null],
  );
  const choices = fc.constantFrom<Cell[]>(
    ...(parameter.choices ?? []),
    ...(parameter.kind === 'flag' ? [true, false, 'yes', 0, 1] : []),
    ...known,
    ...(known.length === 0 && !parameter.choices ? [1] : []),
  );
  if (parameter.kind === 'number' || parameter.kind === 'integer') {
    const number = numberFor(parameter);
    return fc.oneof(
      { weight: 4, arbitrary: number },
      { weight: 4, arbitrary: choices.chain(nearCell) },
      { weight: 1, arbitrary: number.map(String) },
    );
  }
  return choices.chain((cell) =>
    typeof cell === 'string'
      ? fc.oneof({ weight: 4, arbitrary: fc.constant<Cell>(cell) }, { weight: 1, arbitrary: spelled(cell) })
      : nearCell(cell),
  );
}

/** The cell itself, or one that a builder may have in its place. */
function nearCell(cell: Cell): fc.Arbitrary<Cell> {
  if (typeof cell === 'number')
    return fc.oneof(
      { weight: 2, arbitrary: fc.constant<Cell>(cell) },
      { weight: 3, arbitrary: fc.double({ min: 0.5, max: 2, noNaN: true }).map((factor): Cell => cell * factor) },
      {
        weight: 1,
        arbitrary: fc.constantFrom<Cell[]>(
          -cell,
          0,
          String(cell),
          Math.round(cell),
          cell * 1e-300,
          cell * 1e-9,
          cell * 1e6,
        ),
      },
    );
  if (typeof cell === 'string')
    return fc.oneof({ weight: 8, arbitrary: fc.constant<Cell>(cell) }, { weight: 1, arbitrary: spelled(cell) });
  return fc.constant(cell);
}

/** A block as it is in an example, with some of its cells changed, blanked or spoilt. */
function nearBlock(block: Matrix): fc.Arbitrary<Matrix> {
  // Cells of a block belong together, corners of an outline or rows of a table: most stay, and most of the others move little.
  const little = (cell: Cell): fc.Arbitrary<Cell> =>
    typeof cell === 'number'
      ? fc.double({ min: 0.97, max: 1.03, noNaN: true }).map((factor) => cell * factor)
      : fc.constant(cell);
  const cells = block.map((row) =>
    fc.tuple<Cell[]>(
      ...row.map((cell) =>
        fc.oneof(
          { weight: 60, arbitrary: fc.constant(cell) },
          { weight: 30, arbitrary: little(cell) },
          { weight: 8, arbitrary: nearCell(cell) },
          { weight: 2, arbitrary: anyCell },
        ),
      ),
    ),
  );
  return fc.tuple(...cells);
}

/** An argument of the kind that the parameter takes: a cell, or a block from an example. */
function argumentFor(parameter: Parameter): fc.Arbitrary<Argument> {
  const known = EXAMPLES.get(parameter.name);
  if (parameter.shape === 'cell' || !known) return cellFor(parameter);
  return fc
    .constantFrom(...known)
    .chain((argument): fc.Arbitrary<Argument> =>
      Array.isArray(argument) ? nearBlock(argument) : nearCell(argument ?? null),
    );
}

// ---- the arguments of one call ----

/** How rows of the example's columns are taken over: which ones, in which order, how often; undefined: as they are. */
type RowPlan = readonly number[] | undefined;

const replanned = (argument: Argument, plan: RowPlan, rows: number): Argument =>
  plan && Array.isArray(argument) && argument.length === rows ? plan.map((row) => argument[row]!) : argument;

/** An example's arguments, each as it is, a little off, another that fits, or anything at all. */
function nearExample({ parameters }: Definition, args: readonly Argument[]): fc.Arbitrary<Argument[]> {
  const heights = args.flatMap((argument) => (Array.isArray(argument) && argument.length > 1 ? [argument.length] : []));
  const rows = heights[0] ?? 0;
  const plan: fc.Arbitrary<RowPlan> =
    rows > 0
      ? fc.option(fc.array(fc.nat(rows - 1), { minLength: 1, maxLength: 6 }), { nil: undefined })
      : fc.constant(undefined);
  const each = parameters.map((parameter, index): fc.Arbitrary<Argument> => {
    const given = args[index] ?? null;
    return fc.oneof(
      // What the example leaves out is mostly left out: each thing put in may spoil what the others are tried for.
      { weight: parameter.optional && given === null ? 48 : 24, arbitrary: fc.constant<Argument>(given) },
      { weight: 18, arbitrary: Array.isArray(given) ? nearBlock(given) : nearCell(given) },
      { weight: parameter.optional ? 12 : 3, arbitrary: argumentFor(parameter) },
      { weight: 3, arbitrary: anyArgument },
      { weight: parameter.optional ? 6 : 1, arbitrary: fc.constantFrom<Argument[]>(null, undefined, '') },
    );
  });
  return fc
    .tuple(plan, fc.tuple(...each))
    .map(([rowPlan, list]) => list.map((argument) => replanned(argument, rowPlan, rows)));
}

/** Columns of cells that fit, of one height, some of the arguments single, some cells anything. */
function columnsFor({ parameters }: Definition): fc.Arbitrary<Argument[]> {
  return fc.integer({ min: 2, max: 5 }).chain((rows) =>
    fc.tuple(
      ...parameters.map((parameter): fc.Arbitrary<Argument> => {
        if (parameter.shape === 'block') return argumentFor(parameter);
        const cell = cellFor(parameter);
        const column = fc.array(
          fc
            .oneof(
              { weight: 16, arbitrary: cell },
              { weight: 1, arbitrary: anyCell },
              { weight: 1, arbitrary: anyBlank },
            )
            .map((one) => [one]),
          { minLength: rows, maxLength: rows },
        );
        return fc.oneof(
          { weight: parameter.name === 'units' ? 1 : 18, arbitrary: column },
          { weight: 12, arbitrary: cell },
          ...(parameter.optional ? [{ weight: 12, arbitrary: fc.constant<Argument>(null) }] : []),
        );
      }),
    ),
  );
}

/** Any number of any arguments. */
const anything = ({ parameters }: Definition): fc.Arbitrary<Argument[]> =>
  fc.array(anyArgument, { maxLength: parameters.length + 1 });

/** Arguments for one call of `definition`: mostly such as it takes, a part of them spoilt. */
export function argumentsFor(definition: Definition): fc.Arbitrary<Argument[]> {
  return fc.oneof(
    ...definition.examples.map(({ args }) => ({
      weight: Math.ceil(12 / definition.examples.length),
      arbitrary: nearExample(definition, args),
    })),
    { weight: definition.rowWise ? 5 : 1, arbitrary: columnsFor(definition) },
    { weight: 2, arbitrary: anything(definition) },
  );
}

/** Arguments such as `definition` takes, with nothing spoilt: single cells and whole blocks near its examples. */
export function soundArguments(definition: Definition): fc.Arbitrary<Argument[]> {
  return fc.oneof(
    ...definition.examples.map(({ args }) =>
      fc.tuple<Argument[]>(
        ...definition.parameters.map((parameter, index): fc.Arbitrary<Argument> => {
          const given = args[index] ?? null;
          const near = Array.isArray(given) ? soundBlock(given) : soundCell(given);
          const isKnown = parameter.kind !== 'text' || EXAMPLES.has(parameter.name);
          if (parameter.shape !== 'cell' || given === null)
            return parameter.optional && parameter.shape === 'cell' && isKnown ? fc.option(cellFor(parameter)) : near;
          return fc.oneof({ weight: 3, arbitrary: near }, { weight: 1, arbitrary: cellFor(parameter) });
        }),
      ),
    ),
  );
}

const soundCell = (cell: Cell): fc.Arbitrary<Cell> =>
  typeof cell === 'number'
    ? fc.oneof(
        fc.constant<Cell>(cell),
        fc
          .double({ min: 0.7, max: 1.4, noNaN: true })
          .map((factor): Cell => (Number.isInteger(cell) && cell <= 40 ? Math.round(cell * factor) : cell * factor)),
      )
    : fc.constant(cell);

const soundBlock = (block: Matrix): fc.Arbitrary<Matrix> =>
  fc.tuple(...block.map((row) => fc.tuple<Cell[]>(...row.map(soundCell))));
