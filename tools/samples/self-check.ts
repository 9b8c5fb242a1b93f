/**
 * self-check.xlsx: every example of every function with the value that it must give, spills, blank cells, units and
 * errors, and one cell on top that counts. A builder opens it in a spreadsheet program that we do not have, and its
 * first cell says whether the functions are right there.
 */
import { fromInch } from '../../src/core/quantity';
import {
  call,
  catalogue,
  exampleFormula,
  excelName,
  unitsPlace,
  type Definition,
  type Example,
} from '../../src/functions';
import { CellError, columnName, type Cell, type Matrix } from '../../src/sheet';
import { BookBuilder, f } from './book';
import { listChecks, spillChecks, type Block, type Check, type Counted } from './self-check-sheets';

/** Only by the names that Excel takes: `CG` is there as `CG.ARM`. */
const FUNCTIONS = catalogue.filter(({ name }) => excelName(name) === name);

/** What a number may be off by, where its example does not say. */
const withinOf = (wanted: number, within?: number): number => within ?? Math.max(Math.abs(wanted) * 1e-9, 1e-12);

const exampleOf = (definition: Definition, args: Example['args']): string =>
  exampleFormula(definition, { args, gives: null });

const isScalar = (argument: Cell | Matrix): argument is Cell => !Array.isArray(argument);

function examples(): Check[] {
  return FUNCTIONS.flatMap((definition) =>
    definition.examples.flatMap(({ args, gives, within }): Check[] =>
      isScalar(gives)
        ? [
            {
              name: definition.name,
              formula: exampleOf(definition, args),
              wanted: gives,
              within: typeof gives === 'number' ? withinOf(gives, within) : 0,
            },
          ]
        : [],
    ),
  );
}

function spills(): Block[] {
  return FUNCTIONS.flatMap((definition) =>
    definition.examples.flatMap(({ args, gives, within }): Block[] =>
      isScalar(gives)
        ? []
        : [
            {
              name: definition.name,
              inputs: [],
              formula: () => exampleOf(definition, args),
              wanted: gives,
              within: (wanted) => withinOf(wanted, within),
            },
          ],
    ),
  );
}

/** Rows of cells: an example, a row with nothing typed, one with an error, the example again. */
function blanks(): Block[] {
  return FUNCTIONS.filter(({ rowWise }) => rowWise).flatMap((definition): Block[] => {
    const units = unitsPlace(definition.parameters);
    const example = definition.examples.find(
      ({ args, gives }) => isScalar(gives) && !args.some((argument, at) => argument === null || at === units),
    );
    if (!example) return [];
    const cells = example.args.filter(isScalar);
    const rows: Matrix = [cells, cells.map(() => null), [new CellError('#N/A'), ...cells.slice(1)], cells];
    const columnOf = (blank: Cell) => (argument: Cell | Matrix) => {
      const column = isScalar(argument) ? example.args.filter(isScalar).indexOf(argument) : -1;
      return column < 0 ? argument : rows.map((row) => [row[column] ?? blank]);
    };
    // The desktop hands a blank cell over as 0, the web as nothing: both are right.
    const [wanted, onDesktop] = [null, 0].map((blank) => call(definition, example.args.map(columnOf(blank))));
    if (!Array.isArray(wanted) || !Array.isArray(onDesktop)) throw new Error(`${definition.name} takes no columns`);
    return [
      {
        name: definition.name,
        inputs: rows.map((row) => row.map((cell) => (cell instanceof CellError ? f('NA()') : cell))),
        formula: (addresses) =>
          `=TARE.${definition.name}(${example.args
            .map((argument) =>
              isScalar(argument)
                ? addresses[example.args.filter(isScalar).indexOf(argument)]!
                : exampleOf(definition, [argument]).slice(`=TARE.${definition.name}(`.length, -1),
            )
            .join(', ')})`,
        wanted: [[example.gives as Cell], ...wanted.slice(1, 3), [example.gives as Cell]],
        orElse: [[], onDesktop[1]!, [], []],
        within: (value) => withinOf(value, example.within),
      },
    ];
  });
}

/** The first example in millimetres and kilograms, converted by the parameters' dimensions. */
function units(): Check[] {
  return FUNCTIONS.flatMap((definition): Check[] => {
    const place = unitsPlace(definition.parameters);
    const { args, gives, within } = definition.examples[0]!;
    const { result } = definition;
    if (place < 0 || args.length > place || typeof gives !== 'number' || result.kind === 'table') return [];
    const cells = args.filter(isScalar);
    if (cells.length < args.length) return [];
    const metric = cells.map((argument, at): Cell => {
      const { dimension } = definition.parameters[at]!;
      return typeof argument === 'number' ? Number(fromInch(argument, dimension, 'mm-kg').toPrecision(12)) : argument;
    });
    const given = [...metric, ...Array.from({ length: place - args.length }, () => null), 'mm-kg'];
    const wanted = fromInch(gives, result.dimension, 'mm-kg');
    const tolerance = within === undefined ? Math.abs(wanted) * 1e-6 : fromInch(within, result.dimension, 'mm-kg');
    const got = call(definition, given);
    if (typeof got !== 'number' || Math.abs(got - wanted) > tolerance) return [];
    return [{ name: definition.name, formula: exampleOf(definition, given), wanted, within: tolerance }];
  });
}

/** A word where a number stands, and what the functions refuse by rule. */
function errors(): Check[] {
  const cases: [Definition, Example['args']][] = FUNCTIONS.flatMap((definition) => {
    const { args } = definition.examples[0]!;
    const broken = args.map((argument, at) => (at === 0 ? (isScalar(argument) ? 'no such' : [['no such']]) : argument));
    return call(definition, broken) instanceof CellError ? [[definition, broken]] : [];
  });
  const sheet = FUNCTIONS.find(({ name }) => name === 'WEIGHT.SHEET')!;
  cases.push([sheet, [100, 20, '6061-T6']], [sheet, [100, 0.02, 'unobtainium']], [sheet, [-1, 0.02, '6061-T6']]);
  return cases.map(([definition, args]) => {
    const wanted = call(definition, args);
    if (!(wanted instanceof CellError)) throw new Error(`${definition.name} refuses ${JSON.stringify(args)} no more`);
    return {
      name: definition.name,
      formula: exampleOf(definition, args),
      wanted: new CellError(wanted.code),
      within: 0,
    };
  });
}

/** What the first cell says until a spreadsheet program has calculated it. */
const NOT_RUN = 'Not calculated yet. Allow editing, then press Ctrl+Alt+F9.';

const STEPS = [
  'What this is: every example of every TARE function, with the value that it must give. Cell B3 counts.',
  'In Excel: allow editing, wait a few seconds, and press Ctrl+Alt+F9 to calculate everything again.',
  'None passes and the cells say #NAME?: the add-in is not loaded here. Install it, then press Ctrl+Alt+F9.',
  'Some do not pass: send the text of B3, the table below, and which Excel it is (File, Account, About Excel).',
];

/** The workbook with nothing calculated: only the program that opens it says what passes. */
export function selfCheck(): BookBuilder {
  const book = new BookBuilder();
  const front = book.sheet('Self-check');
  const counted: Counted[] = [
    listChecks(book, 'Examples', 'One value each', examples()),
    spillChecks(book, 'Spills', 'Results that fill several cells', spills()),
    spillChecks(book, 'Blank cells', 'Rows with a value, with nothing, with an error, with the value again', blanks()),
    listChecks(book, 'Units', 'In millimetres and kilograms', units()),
    listChecks(book, 'Errors', 'What must be refused', errors()),
  ];
  const first = 12;
  const last = first + counted.length - 1;
  const total = counted.reduce((sum, { count }) => sum + count, 0);
  front.put('A1', 'Self-check of the TARE functions', 'title').put('A3', 'Result', 'bold');
  front.put(
    'B3',
    f(
      `IF(C${last + 1}=${total},"All ${total} checks pass",IF(C${last + 1}=0,"None of ${total} checks passes: the TARE functions are not loaded here",C${last + 1}&" of ${total} checks pass, "&(${total}-C${last + 1})&" do not"))`,
    ),
    'bold',
  );
  STEPS.forEach((text, index) => front.put(`A${index + 5}`, text, 'note'));
  front.row(
    `A${first - 1}`,
    ['Sheet', 'Checks', 'Pass', 'First that does not'],
    ['header', 'headerRight', 'headerRight', 'header'],
  );
  counted.forEach(({ sheet, passes, formulas, count }, index) =>
    front.row(
      `A${first + index}`,
      [
        sheet,
        count,
        f(`COUNTIF('${sheet}'!${passes},"pass")`),
        f(`IFERROR(INDEX('${sheet}'!${formulas},MATCH("not",'${sheet}'!${passes},0)),"")`),
      ],
      ['text', 'count', 'count', 'text'],
    ),
  );
  front.row(`A${last + 1}`, ['All', total, f(`SUM(C${first}:C${last})`)], ['bold', 'count', 'count']);
  front.widths = [14, 12, 12, 60];
  return book;
}

/** The model as it is written: extents of the spills as computed, and no result of ours in any cell. */
export function withoutResults<M extends ReturnType<BookBuilder['model']>>(model: M): M {
  return {
    ...model,
    sheets: model.sheets.map((sheet, at) => ({
      ...sheet,
      cells: sheet.cells.map((row, r) =>
        row.map((cell, c) => {
          if (!cell || (cell.formula === undefined && !cell.spilled)) return cell;
          const { spilled, ...rest } = cell;
          const said = at === 0 && `${columnName(c)}${r + 1}` === 'B3' ? NOT_RUN : null;
          return spilled ? { style: rest.style, value: null } : { ...rest, value: said };
        }),
      ),
    })),
  };
}
