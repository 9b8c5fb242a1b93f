/** Why a formula cannot be read, in a builder's words: what is wrong, and what to type. */
import { FormulaError } from './syntax';
import type { Token } from './tokens';

const CLOSES: Readonly<Record<string, string>> = { '(': ')', '{': '}' };
/** How many characters of the formula a message quotes. */
const QUOTED = 20;

/** Signs that text programs and calculators use, and what a spreadsheet has for them. */
const TYPED_FOR: Readonly<Record<string, string>> = {
  '×': '*',
  '·': '*',
  '÷': '/',
  '−': '-',
  '–': '-',
  '“': '"',
  '”': '"',
  '„': '"',
  '’': "'",
  '≤': '<=',
  '≥': '>=',
  '≠': '<>',
};

export class Faults {
  constructor(
    private readonly text: string,
    /** The formula's tokens without the spaces. */
    private readonly tokens: readonly Token[],
  ) {}

  at(index: number, message: string): FormulaError {
    return new FormulaError(message, this.tokens[index]?.start ?? this.text.length);
  }

  /** What is wrong where a token does not fit, or where the formula ends too early. */
  unexpected(index: number): FormulaError {
    return this.at(index, this.unclosed(index) ?? this.bracket(index) ?? this.misplaced(index));
  }

  /** Why a token cannot be an element of an array. */
  constant(index: number): FormulaError {
    const token = this.tokens[index];
    const isPlain = token && !['closeArray', 'close', 'comma', 'semicolon', 'unclosed'].includes(token.kind);
    return isPlain
      ? this.at(index, `${this.quote(token)} cannot stand between { and }. Type numbers, texts, TRUE or FALSE there.`)
      : this.unexpected(index);
  }

  private unclosed(index: number): string | undefined {
    const token = this.tokens[index];
    if (token?.kind !== 'unclosed') return undefined;
    if (token.text.startsWith('"')) return 'A text has no end: add " where it ends.';
    if (token.text.startsWith("'")) return "The name of a sheet has no end: add '! behind it.";
    return "A table's bracket is missing: add ] where the column's name ends.";
  }

  /** Brackets that are missing, one too many, or of the wrong kind. */
  private bracket(index: number): string | undefined {
    const open = this.openBefore(index);
    const token = this.tokens[index];
    const close = open.map((one) => CLOSES[one]!).reverse();
    if (!token) {
      if (close.length === 0 || this.lacksValue(index)) return undefined;
      return close.length === 1
        ? `A bracket is missing: add ${close[0]} at the end.`
        : `${close.length} brackets are missing: add ${close.join('')} at the end.`;
    }
    if (!/^[)}\]]$/.test(token.text) || close[0] === token.text) return undefined;
    if (close.length > 0) return `"${token.text}" closes nothing here. Type ${close[0]} in its place.`;
    return index === this.tokens.length - 1
      ? `There is one bracket too many: delete the ${token.text} at the end.`
      : `There is one bracket too many: delete the ${token.text} before "${this.rest(index + 1)}".`;
  }

  /** Brackets that are open before a token, the outermost first. */
  private openBefore(index: number): string[] {
    const open: string[] = [];
    for (const { text } of this.tokens.slice(0, index)) {
      if (CLOSES[text]) open.push(text);
      else if (open.length > 0 && text === CLOSES[open.at(-1)!]) open.pop();
    }
    return open;
  }

  /** True where the text before the token asks for a value: "1+", "SUM(". */
  private lacksValue(index: number): boolean {
    const before = this.tokens[index - 1];
    return before !== undefined && before.kind === 'operator' && before.text !== '%' && before.text !== '#';
  }

  // eslint-disable-next-line complexity -- one fault after the other, in the order in which they are told
  private misplaced(index: number): string {
    const token = this.tokens[index];
    const before = this.tokens[index - 1];
    if (!token && !before) return 'The formula is empty. Type a value, a cell or a function.';
    const sign = token && TYPED_FOR[token.text];
    if (sign) return `A spreadsheet does not know "${token.text}". Type ${sign} for it.`;
    if (token && before && isEnd(before) && isValue(token)) return between(before, token, this.text);
    if (token?.kind === 'semicolon' && before) return this.semicolon(index);
    if (before?.kind === 'sheet') return `After "${before.text}" a cell, a range or a name is missing.`;
    if (!token || /^[)},;]$/.test(token.text))
      return before
        ? `Something is missing after "${before.text}".`
        : `${this.quote(token!)} cannot stand at the start.`;
    if (before?.kind === 'operator' && token.kind === 'operator')
      return `"${before.text}${token.text}": between these a value is missing.`;
    return before
      ? `${this.quote(token)} cannot stand after "${before.text}".`
      : `${this.quote(token)} cannot stand at the start.`;
  }

  /** A semicolon: spreadsheets in some languages part arguments by it, so a person may type it. */
  private semicolon(index: number): string {
    const [before, , after] = this.tokens.slice(index - 1);
    return after ? `Type a comma between "${before!.text}" and "${after.text}", not ;.` : 'Delete the ; at the end.';
  }

  private quote(token: Token): string {
    return `"${this.text.slice(token.start, token.start + Math.max(token.text.length, 1)).slice(0, QUOTED)}"`;
  }

  private rest(index: number): string {
    const { start } = this.tokens[index]!;
    return this.text.slice(start, start + QUOTED);
  }
}

/** True for a token with which an operand ends. */
const isEnd = ({ kind, text }: Token): boolean =>
  ['number', 'text', 'error', 'name', 'cell', 'columns', 'rows', 'bracket', 'close', 'closeArray'].includes(kind) ||
  text === '%' ||
  text === '#';

/** True for a token with which an operand begins. */
const isValue = ({ kind }: Token): boolean =>
  [
    'number',
    'text',
    'error',
    'name',
    'cell',
    'columns',
    'rows',
    'bracket',
    'open',
    'openArray',
    'call',
    'table',
    'sheet',
  ].includes(kind);

function between(before: Token, token: Token, text: string): string {
  if (before.kind === 'name' && token.kind === 'open')
    return `"${before.text}" and its bracket stand apart: delete the space between them.`;
  const gap = text.slice(before.start + before.text.length, token.start);
  return `Between "${before.text}${gap}" and "${token.text}" something is missing: + - * / & or a comma.`;
}
