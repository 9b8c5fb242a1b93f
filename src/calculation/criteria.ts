/** Conditions of SUMIF and its like. Source: Microsoft, the pages on COUNTIF and SUMIFS; OpenFormula 1.3, 4.11.8 (Criterion). */
import { CellError, isErrorCode, type Cell } from '../sheet';
import { textNumber } from './text-number';
import { compare, COMPARISONS, digits15, type Comparison } from './values';
import { hasWildcard, wildcard } from './wildcard';

export interface Criterion {
  /** Whether a cell meets it. */
  readonly test: (cell: Cell) => boolean;
  /** Where it asks for equality, the key that all cells which meet it share, so that an index finds them. */
  readonly key: string | undefined;
}

type Operator = '' | Comparison;

const keyed = (key: string): Criterion => ({ test: (cell) => criterionKey(cell) === key, key });
const tested = (test: (cell: Cell) => boolean): Criterion => ({ test, key: undefined });

/** ">=2.5", "rivet*", 3 or TRUE as a condition. */
export function criterion(given: Cell): Criterion {
  // A blank cell as a condition is 0.
  if (typeof given !== 'string') return keyed(criterionKey(given ?? 0)!);
  const [, operator = '', operand = ''] = /^(<>|<=|>=|[<>=])?([^]*)$/.exec(given)!;
  return read(operator as Operator, operand);
}

function read(operator: Operator, operand: string): Criterion {
  if (operand === '') return tested(WITHOUT_OPERAND[operator] ?? (() => false));
  const wanted = operandOf(operand);
  if (operator === '' || operator === '=') return equality(wanted);
  if (operator === '<>') {
    const { test } = equality(wanted);
    return tested((cell) => !test(cell));
  }
  return ordered(operator, wanted);
}

/** Without an operand: "" takes blanks and empty texts, "=" blanks alone, "<>" all that are not blank. */
const WITHOUT_OPERAND: Readonly<Partial<Record<Operator, Criterion['test']>>> = {
  '': (cell) => cell === null || cell === '',
  '=': (cell) => cell === null,
  '<>': (cell) => cell !== null,
};

function equality(wanted: Cell): Criterion {
  if (typeof wanted !== 'string' || !hasWildcard(wanted)) return keyed(criterionKey(wanted)!);
  const matches = wildcard(wanted);
  return tested((cell) => typeof cell === 'string' && matches(cell));
}

function ordered(operator: Comparison, wanted: Cell): Criterion {
  const inOrder = COMPARISONS[operator];
  return tested(
    (cell) =>
      cell !== null && !(cell instanceof CellError) && typeof cell === typeof wanted && inOrder(compare(cell, wanted)),
  );
}

/** Numbers, dates, amounts and per cent as a person types them, TRUE and FALSE, errors; else the text. */
function operandOf(text: string): Cell {
  const number = textNumber(text);
  if (number !== undefined) return number;
  if (/^(true|false)$/i.test(text)) return text.toLowerCase() === 'true';
  const code = text.toUpperCase();
  return isErrorCode(code) ? new CellError(code) : text;
}

/** The key of a cell under a condition of equality. A text that reads as a number has the key of that number. */
export function criterionKey(cell: Cell): string | undefined {
  if (cell === null) return undefined;
  if (typeof cell === 'number') return `n${digits15(cell)}`;
  if (typeof cell === 'boolean') return `b${String(cell)}`;
  if (cell instanceof CellError) return `e${cell.code}`;
  const number = /\d/.test(cell) ? textNumber(cell) : undefined;
  return number === undefined ? `t${cell.toLowerCase()}` : `n${digits15(number)}`;
}
