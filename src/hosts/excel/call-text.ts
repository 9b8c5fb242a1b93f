/** The text of a formula that calls our functions, read far enough to call them again. */
import { findDefinition, type Definition } from '../../functions';
import { numberFrom, parseRange, type Cell } from '../../sheet';
import type { RangeAddress } from '../../sheet';

/** A reference to cells: an address, a table's part, or a defined name. */
export type Reference =
  | { readonly kind: 'range'; readonly range: RangeAddress }
  | { readonly kind: 'column'; readonly table: string; readonly column: string; readonly ofRow: boolean }
  | { readonly kind: 'table'; readonly table: string; readonly whole: boolean }
  | { readonly kind: 'name'; readonly name: string };

export type Term =
  | { readonly kind: 'value'; readonly value: Cell }
  | Reference
  | { readonly kind: 'call'; readonly definition: Definition; readonly args: readonly Term[] };

const NUMBER = /[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?(?![\p{L}\d:!])/iuy;
const TEXT = /"((?:[^"]|"")*)"/y;
const CALL = /([\p{L}][\p{L}\d.]*)\(/uy;
const RANGE =
  /(?:(?:'((?:[^']|'')+)'|([\p{L}_][\p{L}\d_.]*))!)?(\$?[a-z]{1,3}\$?\d{1,7}(?::\$?[a-z]{1,3}\$?\d{1,7})?)(?![\p{L}\d_.(])/iuy;
const TABLE = /([\p{L}_\\][\p{L}\d_.]*)\[(?:(#All|#Data)?|(@)?\[?([^[\]#@']+)\]?)\]/iuy;
const NAME = /([\p{L}_\\][\p{L}\d_.]*)(?![\p{L}\d_.([])/uy;

/** The term that a formula ("=TARE.…") on a sheet is; undefined where it holds more than calls, values and references. */
export function parseCallText(formula: string, sheet: string): Term | undefined {
  const reader = new Reader(formula.slice(1), sheet);
  const term = reader.term();
  return term && reader.atEnd() ? term : undefined;
}

class Reader {
  private at = 0;

  constructor(
    private readonly text: string,
    private readonly sheet: string,
  ) {}

  atEnd(): boolean {
    this.skipSpace();
    return this.at === this.text.length;
  }

  term(): Term | undefined {
    this.skipSpace();
    const call = this.take(CALL);
    if (call) return this.call(call[1]!);
    const text = this.take(TEXT);
    if (text) return { kind: 'value', value: text[1]!.replaceAll('""', '"') };
    const number = this.take(NUMBER);
    if (number) return { kind: 'value', value: numberFrom(number[0]) };
    return this.reference();
  }

  private call(name: string): Term | undefined {
    const definition = /^tare\./i.test(name) ? findDefinition(name) : undefined;
    if (!definition) return undefined;
    const args: Term[] = [];
    for (;;) {
      this.skipSpace();
      if (this.text[this.at] === ',' || this.text[this.at] === ')') args.push({ kind: 'value', value: null });
      else {
        const argument = this.term();
        if (!argument) return undefined;
        args.push(argument);
      }
      this.skipSpace();
      const sign = this.text[this.at++];
      if (sign === ')') return { kind: 'call', definition, args };
      if (sign !== ',') return undefined;
    }
  }

  private reference(): Term | undefined {
    const range = this.take(RANGE);
    if (range) {
      const address = parseRange(
        range[3]!.replaceAll('$', ''),
        range[1]?.replaceAll("''", "'") ?? range[2] ?? this.sheet,
      );
      return address && { kind: 'range', range: address };
    }
    const table = this.take(TABLE);
    if (table) {
      const [, name, part, thisRow, column] = table;
      if (column) return { kind: 'column', table: name!, column, ofRow: thisRow === '@' };
      return { kind: 'table', table: name!, whole: part?.toLowerCase() === '#all' };
    }
    const name = this.take(NAME)?.[1];
    if (!name) return undefined;
    if (/^(true|false)$/i.test(name)) return { kind: 'value', value: name.toLowerCase() === 'true' };
    return { kind: 'name', name };
  }

  private take(pattern: RegExp): RegExpExecArray | null {
    pattern.lastIndex = this.at;
    const found = pattern.exec(this.text);
    if (found) this.at = pattern.lastIndex;
    return found;
  }

  private skipSpace(): void {
    while (/\s/.test(this.text[this.at] ?? '')) this.at++;
  }
}
