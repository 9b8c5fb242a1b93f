/** Formulas as text → trees. Precedence and spelling as spreadsheets have them (ECMA-376 part 1, 18.17). */
import { CellError, isErrorCode, type Cell } from '../cell';
import { columnIndex } from '../address';
import {
  FormulaError,
  LAST_COLUMN,
  LAST_ROW,
  type BinaryOperator,
  type Coordinate,
  type FormulaNode,
  type ReferenceNode,
} from './syntax';

/** Binary operators from loosest to tightest; all of them bind to the left. */
const LEVELS: readonly (readonly BinaryOperator[])[] = [
  ['=', '<>', '<', '>', '<=', '>='],
  ['&'],
  ['+', '-'],
  ['*', '/'],
  ['^'],
];

const NUMBER = /(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y;
const TEXT = /"((?:[^"]|"")*)"/y;
const QUOTED_SHEET = /'((?:[^']|'')+)'!/y;
const SHEET = /([\p{L}_\\][\p{L}\p{N}_.]*)!/uy;
const ERROR = /#(?:N\/A|VALUE!|REF!|DIV\/0!|NUM!|NAME\?|NULL!|SPILL!|CALC!)/iy;
const CELL = /(\$?)([A-Za-z]{1,3})(\$?)(\d{1,7})(?![\p{L}\p{N}_.(])/uy;
const COLUMNS = /(\$?)([A-Za-z]{1,3}):(\$?)([A-Za-z]{1,3})(?![\p{L}\p{N}_.(])/uy;
const ROWS = /(\$?)(\d{1,7}):(\$?)(\d{1,7})(?![\p{L}\p{N}_.(])/uy;
const NAME = /[\p{L}_\\][\p{L}\p{N}_.?\\]*/uy;
const SPACE = /[ \t\r\n]*/y;
const OPERATOR = /<>|<=|>=|[-+*/^&=<>]/y;

export function parseFormula(text: string): FormulaNode {
  const parser = new Parser(text);
  return parser.whole();
}

/** The same; undefined for a text that is no formula. */
export function tryFormula(text: string): FormulaNode | undefined {
  try {
    return parseFormula(text);
  } catch (error) {
    if (error instanceof FormulaError) return undefined;
    throw error;
  }
}

class Parser {
  private at = 0;
  private depth = 0;

  constructor(private readonly text: string) {}

  whole(): FormulaNode {
    const node = this.binary(0);
    if (this.at < this.text.length) throw this.fault(`"${this.text.slice(this.at, this.at + 12)}" is not expected`);
    return node;
  }

  private binary(level: number): FormulaNode {
    const operators = LEVELS[level];
    if (!operators) return this.signed();
    let left = this.binary(level + 1);
    for (;;) {
      const before = this.at;
      const operator = this.take(OPERATOR)?.[0] as BinaryOperator | undefined;
      if (!operator || !operators.includes(operator)) {
        this.at = before;
        return left;
      }
      this.space();
      left = { kind: 'binary', operator, left, right: this.binary(level + 1) };
    }
  }

  /** A sign binds tighter than a power: -2^2 is 4. */
  private signed(): FormulaNode {
    this.space();
    const sign = this.text[this.at];
    if (sign === '-' || sign === '+') {
      this.at++;
      this.enter();
      const node: FormulaNode = { kind: 'sign', negative: sign === '-', of: this.signed() };
      this.depth--;
      return node;
    }
    // "@" asks for the cell of the same row, which is what a plain formula takes anyway.
    if (sign === '@') this.at++;
    let node = this.span();
    while (this.skip('%')) node = { kind: 'percent', of: node };
    return node;
  }

  private span(): FormulaNode {
    let node = this.primary();
    while (this.skip(':')) node = { kind: 'span', from: node, to: this.primary() };
    return node;
  }

  private primary(): FormulaNode {
    this.space();
    const { text } = this;
    const first = text[this.at];
    if (first === undefined) throw this.fault('a value is missing at its end');
    if (first === '(') return this.parenthesized();
    if (first === '{') return this.array();
    if (first === '"') return this.done({ kind: 'value', value: this.textLiteral() });
    const error = first === '#' ? this.take(ERROR)?.[0] : undefined;
    if (error) return this.done({ kind: 'value', value: errorValue(error) });
    const rows = this.take(ROWS);
    if (rows) return this.done(rowsNode(undefined, rows));
    const number = this.take(NUMBER);
    if (number) return this.done({ kind: 'value', value: Number(number[0]) });
    return this.done(this.named());
  }

  private parenthesized(): FormulaNode {
    this.at++;
    this.enter();
    const node = this.binary(0);
    this.depth--;
    if (this.skip(',')) throw this.fault('a union of ranges is not known here');
    this.expect(')');
    return this.done(node);
  }

  private named(): FormulaNode {
    const quoted = this.take(QUOTED_SHEET) ?? this.take(SHEET);
    const sheet = quoted?.[1]!.replaceAll("''", "'");
    if (sheet !== undefined && /[[\]:]/.test(sheet))
      throw this.fault(`${sheet} is in another workbook or several sheets`);
    const reference = this.reference(sheet);
    if (reference) return this.skip('#') ? { kind: 'spill', of: reference } : reference;
    if (sheet !== undefined && this.take(ERROR)) return { kind: 'value', value: new CellError('#REF!') };
    const name = this.take(NAME)?.[0];
    if (!name && this.text[this.at] === '[') return { kind: 'table', table: '', part: this.brackets() };
    if (!name) throw this.fault(`"${this.text.slice(this.at, this.at + 12)}" is not expected`);
    if (this.text[this.at] === '(') return { kind: 'call', name: name.toUpperCase(), args: this.args() };
    if (this.text[this.at] === '[') return { kind: 'table', table: name, part: this.brackets() };
    if (/^(true|false)$/i.test(name) && sheet === undefined)
      return { kind: 'value', value: name.toLowerCase() === 'true' };
    return { kind: 'name', name, sheet };
  }

  private reference(sheet: string | undefined): ReferenceNode | undefined {
    const columns = this.take(COLUMNS);
    if (columns) return columnsNode(sheet, columns);
    const rows = sheet === undefined ? undefined : this.take(ROWS);
    if (rows) return rowsNode(sheet, rows);
    const before = this.at;
    const first = this.take(CELL);
    const from = first && cellPlace(first);
    if (!from) {
      this.at = before;
      return undefined;
    }
    const between = this.at;
    if (this.text[this.at] === ':') {
      this.at++;
      const last = this.take(CELL);
      const to = last && cellPlace(last);
      if (to) return ordered(sheet, from, to);
      this.at = between;
    }
    return { kind: 'reference', sheet, top: from.row, left: from.column, bottom: from.row, right: from.column };
  }

  private args(): (FormulaNode | undefined)[] {
    this.at++;
    this.enter();
    const args: (FormulaNode | undefined)[] = [];
    this.space();
    if (this.skip(')')) {
      this.depth--;
      return args;
    }
    for (;;) {
      this.space();
      const next = this.text[this.at];
      args.push(next === ',' || next === ')' ? undefined : this.binary(0));
      if (this.skip(')')) break;
      this.expect(',');
    }
    this.depth--;
    return args;
  }

  private array(): FormulaNode {
    this.at++;
    const rows: Cell[][] = [[]];
    for (;;) {
      this.space();
      rows.at(-1)!.push(this.constant());
      this.space();
      if (this.skip('}')) break;
      if (this.skip(';')) rows.push([]);
      else this.expect(',');
    }
    if (rows.some((row) => row.length !== rows[0]!.length)) throw this.fault('the rows of an array differ in length');
    return this.done({ kind: 'array', rows });
  }

  private constant(): Cell {
    if (this.text[this.at] === '"') return this.textLiteral();
    const error = this.take(ERROR);
    if (error) return errorValue(error[0]);
    const sign = /[-+]/.test(this.text[this.at] ?? '') ? this.text[this.at++] : '';
    const number = this.take(NUMBER);
    if (number) return Number(sign + number[0]);
    const word = this.take(NAME)?.[0].toLowerCase();
    if (word === 'true' || word === 'false') return word === 'true';
    throw this.fault('an array takes numbers, texts, TRUE, FALSE and errors');
  }

  private textLiteral(): string {
    const found = this.take(TEXT);
    if (!found) throw this.fault('a text lacks its closing quote');
    return found[1]!.replaceAll('""', '"');
  }

  /** What stands between a table's outer brackets. */
  private brackets(): string {
    const start = this.at;
    let depth = 0;
    for (; this.at < this.text.length; this.at++) {
      const character = this.text[this.at];
      if (character === "'") this.at++;
      else if (character === '[') depth++;
      else if (character === ']' && --depth === 0) return this.text.slice(start + 1, this.at++);
    }
    throw this.fault('a bracket is not closed');
  }

  private enter(): void {
    if (++this.depth > 200) throw this.fault('it nests too deeply');
  }

  private take(pattern: RegExp): RegExpExecArray | undefined {
    pattern.lastIndex = this.at;
    const found = pattern.exec(this.text) ?? undefined;
    if (found) this.at = pattern.lastIndex;
    return found;
  }

  private skip(character: string): boolean {
    if (this.text[this.at] !== character) return false;
    this.at++;
    this.space();
    return true;
  }

  private expect(character: string): void {
    if (this.text[this.at] !== character)
      throw this.fault(
        this.at < this.text.length
          ? `"${character}" is expected before "${this.text.slice(this.at, this.at + 12)}"`
          : `"${character}" is missing at its end`,
      );
    this.at++;
  }

  private done(node: FormulaNode): FormulaNode {
    this.space();
    return node;
  }

  private space(): void {
    this.take(SPACE);
  }

  private fault(what: string): FormulaError {
    return new FormulaError(`The formula cannot be read: ${what}`);
  }
}

interface Place {
  readonly row: Coordinate;
  readonly column: Coordinate;
}

function cellPlace([, lockColumn, letters, lockRow, digits]: RegExpExecArray): Place | undefined {
  const row = { at: Number(digits) - 1, fixed: lockRow === '$' };
  const column = { at: columnIndex(letters!), fixed: lockColumn === '$' };
  return row.at >= 0 && row.at <= LAST_ROW && column.at <= LAST_COLUMN ? { row, column } : undefined;
}

function ordered(sheet: string | undefined, a: Place, b: Place): ReferenceNode {
  const [top, bottom] = a.row.at <= b.row.at ? [a.row, b.row] : [b.row, a.row];
  const [left, right] = a.column.at <= b.column.at ? [a.column, b.column] : [b.column, a.column];
  return { kind: 'reference', sheet, top, left, bottom, right };
}

/** Whole columns and rows stay where the text says: templates share only formulas whose text has the same ones. */
function columnsNode(sheet: string | undefined, [, , a, , b]: RegExpExecArray): ReferenceNode {
  const at = (row: number, letters: string): Place => ({
    row: { at: row, fixed: true },
    column: { at: columnIndex(letters), fixed: true },
  });
  return ordered(sheet, at(0, a!), at(LAST_ROW, b!));
}

function rowsNode(sheet: string | undefined, [, , a, , b]: RegExpExecArray): ReferenceNode {
  const at = (digits: string, column: number): Place => ({
    row: { at: Number(digits) - 1, fixed: true },
    column: { at: column, fixed: true },
  });
  return ordered(sheet, at(a!, 0), at(b!, LAST_COLUMN));
}

function errorValue(text: string): CellError {
  const code = text.toUpperCase();
  return new CellError(isErrorCode(code) ? code : '#VALUE!');
}
