/**
 * Where LibreOffice 7.4 is known to differ from us, and which document decides. A rule speaks of the function, of what its
 * arguments are and of both results, as narrowly as it can; what no rule explains is a fault of ours until it is understood.
 * "MS" is Microsoft's page on the function; "ODF" OpenFormula 1.3 by section.
 */
import type { FormulaNode } from '../../src/sheet/formula';
import { numberText } from '../../src/calculation/values';
import { textNumber } from '../../src/calculation/text-number';
import { CellError, type Cell, type Matrix } from '../../src/sheet';
import { Case, cellsOf, type Value } from './case';
import { DATE_RULES } from './differences-dates';
import { DISTRIBUTION_RULES } from './differences-distributions';
import { EDGE_RULES } from './differences-edges';
import { areNear, FUNCTION_RULES } from './differences-functions';
import { isCode, type Rule } from './rule';
import { alike } from './same';

type Result = Cell | Matrix;

const isText = (value: Value): value is string => typeof value === 'string';
/** A range of several cells. */
const isSeveral = (node: FormulaNode | undefined, value: Value): boolean =>
  (node?.kind === 'reference' || node?.kind === 'name') && Array.isArray(value);
const errorCodes = (cells: readonly Cell[]): string[] =>
  cells.flatMap((cell) => (cell instanceof CellError ? [cell.code] : []));

/** A text that is a number to us and none to LibreOffice, which takes plain numbers and ISO dates alone. */
const isAmount = (cell: Cell): boolean =>
  isText(cell) &&
  /\d/.test(cell) &&
  !/^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?$/i.test(cell) &&
  !/^\d{4}-\d\d-\d\d(?:[ T]\d\d:\d\d(?::\d\d)?)?$/.test(cell);

const JOINING = ['&', 'CONCAT', 'CONCATENATE', 'TEXTJOIN'];

/** Texts in which numbers are cut to ten digits. */
const rounded = (text: string): string =>
  text.replace(/\d+(?:\.\d+)?(?:E[-+]?\d+)?/gi, (digits) => Number(digits).toPrecision(10));

/** Texts that differ by one in the last digit of a long number, also where another number stands before it without a space. */
function differInLastDigit(one: string, other: string): boolean {
  const at = [...one].flatMap((sign, index) => (sign === other[index] ? [] : [index]));
  const [place] = at;
  if (one.length !== other.length || at.length !== 1 || place === undefined) return false;
  return (
    Math.abs(Number(one[place]) - Number(other[place])) === 1 &&
    /\d[\d.]{9,}$/.test(one.slice(0, place)) &&
    !/\d/.test(one[place + 1] ?? '')
  );
}

/** Kinds of values, whatever the function. */
const COMMON: readonly Rule[] = [
  {
    why: 'of two errors the one that stands first is the result (MS, "Calculation operators and precedence": from left to right); LibreOffice has the other',
    applies: ({ ours, theirs, calls }) => {
      const given = errorCodes(calls.flatMap(({ args }) => args.flatMap(cellsOf)));
      return (
        ours instanceof CellError &&
        theirs instanceof CellError &&
        given.includes(ours.code) &&
        given.includes(theirs.code)
      );
    },
  },
  {
    why: 'in a plain formula a range is its cell in the own row, and #VALUE! where there is none: MS, "Implicit intersection operator: @"; beside an error the first of the two counts',
    applies: ({ ours, theirs, calls }) =>
      isCode(ours, '#VALUE!') &&
      theirs instanceof CellError &&
      calls.some(({ args, nodes }) => nodes.some((node, index) => isSeveral(node, args[index]))),
  },
  {
    why: 'in a plain formula a range is its cell in the own row, beside an array constant, too: MS, "Implicit intersection operator: @"; LibreOffice then computes over arrays',
    applies: ({ ours, calls }) =>
      isCode(ours, '#VALUE!') &&
      calls.some(
        ({ args, nodes }) =>
          nodes.some((node) => node?.kind === 'array') && nodes.some((node, index) => isSeveral(node, args[index])),
      ),
  },
  {
    why: 'a text in a cell that reads as a number in the United States is one in arithmetic, dates and amounts: MS, "Calculation operators and precedence in Excel" (1+"$4.00" is 5); LibreOffice converts plain numbers and ISO dates alone',
    applies: (one) =>
      one.theirs instanceof CellError &&
      one.theirs.code === '#VALUE!' &&
      !(one.ours instanceof CellError) &&
      one.someCell(isAmount),
  },
  {
    why: 'the last of 15 digits of a number that is joined to a text: iterations end at different places',
    applies: ({ ours, theirs, calls }) =>
      isText(ours) &&
      isText(theirs) &&
      calls.some(({ name }) => JOINING.includes(name)) &&
      (rounded(ours) === rounded(theirs) || differInLastDigit(ours, theirs)),
  },
  {
    why: 'the last of 15 digits of a number that has more joined to it: a series ends at different places',
    applies: (one) =>
      one.some(JOINING.join('|'), (args) =>
        args.some((arg) => {
          if (typeof arg !== 'number' || !isText(one.ours)) return false;
          const [shown, cut] = [arg, Number(arg.toPrecision(13))].map((number) => numberText(number)) as [
            string,
            string,
          ];
          return shown !== cut && one.theirs === one.ours.replace(shown, cut);
        }),
      ),
  },
  {
    why: 'a number below 0.0001 is joined with an exponent, as the format General has it (15 digits and an exponent: MS, "Excel specifications and limits"); LibreOffice writes its zeros',
    applies: (one) =>
      isText(one.ours) &&
      /E-\d\d/.test(one.ours) &&
      one.some(JOINING.join('|'), (args) =>
        args.some((arg) => typeof arg === 'number' && arg !== 0 && Math.abs(arg) < 1e-4),
      ),
  },
  {
    why: 'a text that is no number beside an error: the first of the two counts, as for two errors (from memory, verify)',
    applies: ({ ours, theirs, calls }) =>
      isCode(ours, '#VALUE!') &&
      calls.some(({ args }) => {
        const cells = args.flatMap(cellsOf);
        return (
          cells.some((cell) => isText(cell) && textNumber(cell) === undefined) &&
          cells.some((cell) => cell instanceof CellError && theirs instanceof CellError && cell.code === theirs.code)
        );
      }),
  },
  {
    why: 'logical values are a type of their own: MS, pages on TYPE, CONCAT, COUNT and "Comparison operators"; in LibreOffice they are numbers (ODF 4.5 allows it), and with numbers in their place we give what it gives',
    applies: ({ ours, byNumbers, theirs }) =>
      alike(byNumbers, theirs) ||
      areNear(byNumbers, theirs) ||
      (isText(ours) && theirs === ours.replaceAll('TRUE', '1').replaceAll('FALSE', '0')),
  },
];

const LIBREOFFICE: readonly Rule[] = [
  ...FUNCTION_RULES,
  ...DISTRIBUTION_RULES,
  ...EDGE_RULES,
  ...DATE_RULES,
  ...COMMON,
];

/** Why two results differ; undefined where nothing explains it. */
export function explanation(formula: string, ours: Result, theirs: Result): string | undefined {
  const one = new Case(formula, ours, theirs);
  return LIBREOFFICE.find(({ applies }) => applies(one))?.why;
}
