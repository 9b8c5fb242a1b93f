/** Formulas as text → trees. Precedence and spelling as spreadsheets have them (ECMA-376 part 1, 18.17). */
import { unless } from '../../core/unless';
import { CellError, isErrorCode, numberFrom, type Cell } from '../cell';
import { Faults } from './faults';
import { cellNode, columnsNode, rangeNode, rowsNode, sheetOf, textOf } from './spelling';
import { FormulaError, type BinaryOperator, type FormulaNode, type ReferenceNode } from './syntax';
import { tokens, type Token, type TokenKind } from './tokens';

/** Binary operators from loosest to tightest; all of them bind to the left. */
const LEVELS: readonly (readonly string[])[] = [
  ['=', '<>', '<', '>', '<=', '>='],
  ['&'],
  ['+', '-'],
  ['*', '/'],
  ['^'],
];

/** The error that a formula holds in the place of cells that were deleted. */
const GONE = new CellError('#REF!', 'The formula names cells that were deleted');

const FLAG = /^(true|false)$/i;

/** How deep brackets may be nested. A formula that is typed by hand has some five levels. */
const DEEPEST = 200;

/** What can give a reference. */
const REFERS: ReadonlySet<FormulaNode['kind']> = new Set([
  'reference',
  'spill',
  'span',
  'name',
  'table',
  'elsewhere',
  'call',
  'apply',
  'union',
  'intersection',
]);
/** Kinds of tokens with which a reference begins. */
const BEGINS: ReadonlySet<TokenKind> = new Set(['cell', 'columns', 'rows', 'sheet', 'name', 'table', 'call', 'open']);

/**
 * The tree of a formula, without its "=".
 * @throws FormulaError that says what to change
 */
export const parseFormula = (text: string): FormulaNode => new Parser(text).whole();

/** As parseFormula, but gives undefined for a text that is not a formula instead of throwing. */
export const tryFormula = (text: string): FormulaNode | undefined => unless(FormulaError, () => parseFormula(text));

class Parser {
  /** Without spaces. */
  private readonly tokens: Token[] = [];
  /** True where a space precedes the token. */
  private readonly spaced: boolean[] = [];
  private readonly faults: Faults;
  private index = 0;
  private depth = 0;

  constructor(text: string) {
    let isSpaced = false;
    for (const token of tokens(text)) {
      if (token.kind !== 'space') {
        this.tokens.push(token);
        this.spaced.push(isSpaced);
      }
      isSpaced = token.kind === 'space';
    }
    this.faults = new Faults(text, this.tokens);
  }

  whole(): FormulaNode {
    const node = this.binary(0);
    if (this.token) throw this.faults.unexpected(this.index);
    return node;
  }

  private get token(): Token | undefined {
    return this.tokens[this.index];
  }

  private binary(level: number): FormulaNode {
    const operators = LEVELS[level];
    if (!operators) return this.signed();
    let left = this.binary(level + 1);
    for (let taken = this.takeOperator(operators); taken !== undefined; taken = this.takeOperator(operators))
      left = { kind: 'binary', operator: taken as BinaryOperator, left, right: this.binary(level + 1) };
    return left;
  }

  /** A sign binds tighter than a power: -2^2 is 4. */
  private signed(): FormulaNode {
    const sign = this.takeOperator(['-', '+']);
    if (sign === undefined) return this.percents();
    return this.nested(() => ({ kind: 'sign', negative: sign === '-', of: this.signed() }));
  }

  private percents(): FormulaNode {
    let node = this.single();
    while (this.takeOperator(['%'])) node = { kind: 'percent', of: node };
    return node;
  }

  private single(): FormulaNode {
    if (!this.takeOperator(['@'])) return this.intersection();
    return this.nested(() => ({ kind: 'single', of: this.single() }));
  }

  private intersection(): FormulaNode {
    let left = this.span();
    while (REFERS.has(left.kind) && this.spaced[this.index] && this.token && BEGINS.has(this.token.kind)) {
      // SUM (A1) is meant as a call.
      if (left.kind === 'name' && this.token.kind === 'open') throw this.faults.unexpected(this.index);
      left = { kind: 'intersection', left, right: this.span() };
    }
    return left;
  }

  private span(): FormulaNode {
    let node = this.applied();
    while (this.takeOperator([':'])) node = joined(node, this.applied());
    return node;
  }

  private applied(): FormulaNode {
    let node = this.primary();
    while ((node.kind === 'call' || node.kind === 'apply') && this.token?.kind === 'open' && !this.spaced[this.index]) {
      this.index++;
      node = { kind: 'apply', of: node, args: this.args() };
    }
    return node;
  }

  private primary(): FormulaNode {
    const token = this.taken();
    switch (token.kind) {
      case 'open':
        return this.parenthesized();
      case 'openArray':
        return this.array();
      case 'text':
        return { kind: 'value', value: textOf(token.text) };
      case 'number':
        return { kind: 'value', value: numberFrom(token.text) };
      case 'error':
        return { kind: 'value', value: errorValue(token.text) };
      case 'sheet':
        return this.onSheet(token);
      case 'call':
        this.index++;
        return { kind: 'call', name: token.text.toUpperCase(), args: this.args() };
      default:
        return this.place(token, undefined);
    }
  }

  /** What a token names of a sheet, with all that belongs to it: A1, A1#, A:B, Parts[width], a name. */
  private place(token: Token, sheet: string | undefined): FormulaNode {
    switch (token.kind) {
      case 'cell': {
        const of = cellNode(token.text, sheet);
        return this.takeOperator(['#']) ? { kind: 'spill', of } : of;
      }
      case 'columns':
        return columnsNode(token.text, sheet);
      case 'rows':
        return rowsNode(token.text, sheet);
      case 'name':
        return sheet === undefined && FLAG.test(token.text)
          ? { kind: 'value', value: token.text.toLowerCase() === 'true' }
          : { kind: 'name', name: token.text, sheet };
      case 'table':
        return { kind: 'table', table: token.text, part: this.brackets() };
      case 'bracket':
        if (sheet !== undefined) break;
        return { kind: 'table', table: '', part: token.text.slice(1, -1) };
      default:
    }
    throw this.faults.unexpected(--this.index);
  }

  private brackets(): string {
    const { token } = this;
    if (token?.kind !== 'bracket') throw this.faults.unexpected(this.index);
    this.index++;
    return token.text.slice(1, -1);
  }

  private onSheet(prefix: Token): FormulaNode {
    const token = this.taken();
    const { sheet, isElsewhere } = sheetOf(prefix.text);
    if (isElsewhere) return this.elsewhere(prefix, token);
    if (sheet === undefined || token.kind === 'error') return { kind: 'value', value: GONE };
    return this.place(token, sheet);
  }

  private elsewhere(prefix: Token, first: Token): FormulaNode {
    let text = prefix.text + first.text;
    switch (first.kind) {
      case 'table':
        return { kind: 'elsewhere', text: `${text}[${this.brackets()}]` };
      case 'cell': {
        const last = this.tokens[this.index + 1];
        if (this.token?.text !== ':' || last?.kind !== 'cell') break;
        text += `:${last.text}`;
        this.index += 2;
        break;
      }
      case 'columns':
      case 'rows':
      case 'name':
      case 'error':
        break;
      default:
        throw this.faults.unexpected(--this.index);
    }
    return { kind: 'elsewhere', text };
  }

  private parenthesized(): FormulaNode {
    const nodes = this.nested(() => {
      const all = [this.binary(0)];
      while (this.take('comma')) all.push(this.binary(0));
      return all;
    });
    this.close();
    return nodes.length === 1 ? nodes[0]! : { kind: 'union', of: nodes };
  }

  private args(): (FormulaNode | undefined)[] {
    if (this.take('close')) return [];
    return this.nested(() => {
      const args: (FormulaNode | undefined)[] = [];
      do {
        const next = this.token?.kind;
        args.push(next === 'comma' || next === 'close' ? undefined : this.binary(0));
      } while (this.take('comma'));
      this.close();
      return args;
    });
  }

  private array(): FormulaNode {
    const first = this.index - 1;
    const rows: Cell[][] = [[]];
    for (;;) {
      rows.at(-1)!.push(this.constant());
      if (this.take('closeArray')) break;
      if (this.take('semicolon')) rows.push([]);
      else if (!this.take('comma')) throw this.faults.unexpected(this.index);
    }
    if (rows.some((row) => row.length !== rows[0]!.length))
      throw this.faults.at(first, 'The rows between { and } differ in length. Give each as many values as the first.');
    return { kind: 'array', rows };
  }

  private constant(): Cell {
    const sign = this.takeOperator(['-', '+']);
    const { token } = this;
    this.index++;
    if (token?.kind === 'number') return numberFrom((sign ?? '') + token.text);
    if (token && sign === undefined) {
      if (token.kind === 'text') return textOf(token.text);
      if (token.kind === 'error') return errorValue(token.text);
      if (FLAG.test(token.text)) return token.text.toLowerCase() === 'true';
    }
    throw this.faults.constant(this.index - 1);
  }

  private close(): void {
    if (!this.take('close')) throw this.faults.unexpected(this.index);
  }

  /** Reads what stands one level deeper. */
  private nested<T>(read: () => T): T {
    if (++this.depth > DEEPEST)
      throw this.faults.at(this.index, `The formula has more than ${DEEPEST} brackets in each other. Use two cells.`);
    const found = read();
    this.depth--;
    return found;
  }

  private taken(): Token {
    const { token } = this;
    if (!token) throw this.faults.unexpected(this.index);
    this.index++;
    return token;
  }

  private take(kind: TokenKind): boolean {
    if (this.token?.kind !== kind) return false;
    this.index++;
    return true;
  }

  private takeOperator(operators: readonly string[]): string | undefined {
    const { token } = this;
    if (token?.kind !== 'operator' || !operators.includes(token.text)) return undefined;
    this.index++;
    return token.text;
  }
}

/** Two single cells around a colon are one reference. */
function joined(from: FormulaNode, to: FormulaNode): FormulaNode {
  return from.kind === 'reference' && to.kind === 'reference' && isCell(from) && isCell(to) && isSameSheet(from, to)
    ? rangeNode(from, to)
    : { kind: 'span', from, to };
}

const isSameSheet = (from: ReferenceNode, to: ReferenceNode): boolean =>
  to.sheet === undefined || to.sheet.toLowerCase() === from.sheet?.toLowerCase();

const isCell = ({ top, left, bottom, right }: ReferenceNode): boolean => top === bottom && left === right;

/** An error that this program has no code for is read as #VALUE!. */
function errorValue(text: string): CellError {
  const code = text.toUpperCase();
  if (code === GONE.code) return GONE;
  return new CellError(isErrorCode(code) ? code : '#VALUE!');
}
