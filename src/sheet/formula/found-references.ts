/**
 * What a formula refers to, with the places of the references in its text. The names that LET and LAMBDA give to values
 * are not names of the workbook.
 */
import { cellNode, columnsNode, rangeNode, rowsNode, sheetOf } from './spelling';
import type { ReferenceNode } from './syntax';
import { replaced, tokens, type Replacement, type Token } from './tokens';

interface Span {
  /** Where it begins in the formula, its sheet's name included; `end` is behind its last character. */
  readonly start: number;
  readonly end: number;
  /** The sheet that it names; undefined for the formula's own, and elsewhere. */
  readonly sheet: string | undefined;
  /** True for another workbook, and for several sheets: [2]Prices!A1, Jan:Mar!A1. */
  readonly isElsewhere: boolean;
}

/**
 * What is found.
 * - range: cells, also whole columns and rows
 * - spill: A1#, whose node is the cell
 * - table: Parts[width]; `table` is '' where the formula stands in the table and leaves its name out
 * - name: a defined name; parameters of LET and LAMBDA are not defined names
 */
type Found =
  | { readonly kind: 'range' | 'spill'; readonly node: ReferenceNode }
  | { readonly kind: 'table'; readonly table: string; readonly part: string }
  | { readonly kind: 'name'; readonly name: string };

export type FoundReference = Span & Found;

/** All references of a formula in their order. They are found in a formula that cannot be parsed, too: FOREIGN(A3, SUM(A1. */
export function references(formula: string): FoundReference[] {
  const all = tokens(formula);
  const parameters = parameterNames(all);
  const found: FoundReference[] = [];
  for (let index = 0; index < all.length;) {
    const prefix = all[index]!.kind === 'sheet' ? all[index++] : undefined;
    if (index === all.length) break;
    const taken = takeReference(all, index, prefix, parameters);
    if (taken) found.push(taken.reference);
    index = taken?.next ?? index + 1;
  }
  return found;
}

/** A formula with the texts in it that `change` gives for each of its references. */
export const withReferences = (
  formula: string,
  change: (reference: FoundReference) => readonly Replacement[],
): string => replaced(formula, references(formula).flatMap(change));

interface Taken {
  readonly reference: FoundReference;
  readonly next: number;
}

// eslint-disable-next-line complexity -- one form of a reference after the other
function takeReference(
  all: readonly Token[],
  index: number,
  prefix: Token | undefined,
  parameters: ReadonlySet<Token>,
): Taken | undefined {
  const { sheet, isElsewhere } = prefix ? sheetOf(prefix.text) : { sheet: undefined, isElsewhere: false };
  // #REF!A1 refers to nothing any more.
  if (prefix && sheet === undefined && !isElsewhere) return undefined;
  const first = prefix ?? all[index]!;
  const taken = (last: number, what: Found): Taken => ({
    reference: {
      start: first.start,
      end: all[last]!.start + all[last]!.text.length,
      sheet,
      isElsewhere,
      ...what,
    },
    next: last + 1,
  });
  const token = all[index]!;
  switch (token.kind) {
    case 'cell':
      return takeCell(all, index, sheet, taken);
    case 'columns':
      return taken(index, { kind: 'range', node: columnsNode(token.text, sheet) });
    case 'rows':
      return taken(index, { kind: 'range', node: rowsNode(token.text, sheet) });
    case 'table': {
      const part = all[index + 1];
      return part?.kind === 'bracket'
        ? taken(index + 1, { kind: 'table', table: token.text, part: part.text.slice(1, -1) })
        : undefined;
    }
    case 'bracket':
      return parameters.has(token)
        ? undefined
        : taken(index, { kind: 'table', table: '', part: token.text.slice(1, -1) });
    case 'name':
      return parameters.has(token) || (!prefix && /^(true|false)$/i.test(token.text))
        ? undefined
        : taken(index, { kind: 'name', name: token.text });
    default:
      return undefined;
  }
}

/** A1, A1:B2, Parts!A1:Parts!B2, A1#. */
function takeCell(
  all: readonly Token[],
  index: number,
  sheet: string | undefined,
  taken: (last: number, what: Found) => Taken,
): Taken {
  const from = cellNode(all[index]!.text, sheet);
  if (all[index + 1]?.text === '#') return taken(index + 1, { kind: 'spill', node: from });
  let last = index + 2;
  if (all[index + 1]?.text !== ':') return taken(index, { kind: 'range', node: from });
  const again = all[last];
  if (
    again?.kind === 'sheet' &&
    sheet !== undefined &&
    sheetOf(again.text).sheet?.toLowerCase() === sheet.toLowerCase()
  )
    last++;
  const to = all[last];
  // In A1:B2# and A1:INDEX(…) the first cell is a reference by itself.
  if (to?.kind !== 'cell' || all[last + 1]?.text === '#') return taken(index, { kind: 'range', node: from });
  return taken(last, { kind: 'range', node: rangeNode(from, cellNode(to.text, sheet)) });
}

interface Call {
  /** LET or LAMBDA, in capitals; '' for any other bracket. */
  readonly name: string;
  /** Its arguments so far, the one that is read among them. */
  count: number;
  /** The only token of the argument so far; undefined where there are none or several. */
  only: Token | undefined;
  tokens: number;
  readonly declared: Token[];
}

const DECLARING = /^(LET|LAMBDA)$/i;

/**
 * The tokens of a formula that are such names, where they are given and where they are used: [name] is one that a
 * LAMBDA's call may leave out. A name counts from where it is given to the end of its LET or LAMBDA.
 */
export const parameterNames = (all: readonly Token[]): ReadonlySet<Token> => names(all).found;

/** Those tokens among them that introduce a name. */
export const declaredNames = (all: readonly Token[]): ReadonlySet<Token> => names(all).given;

function names(all: readonly Token[]): { readonly found: ReadonlySet<Token>; readonly given: ReadonlySet<Token> } {
  const result = { found: new Set<Token>(), given: new Set<Token>() };
  if (!all.some(({ kind, text }) => kind === 'call' && DECLARING.test(text))) return result;
  const open: Call[] = [];
  all.forEach((token, index) => {
    const call = open.at(-1);
    switch (token.kind) {
      case 'space':
        return;
      case 'open':
      case 'openArray':
        open.push({ name: declaring(all[index - 1]), count: 1, only: undefined, tokens: 0, declared: [] });
        note(call, token);
        return;
      case 'close':
      case 'closeArray':
        open.pop();
        return;
      case 'comma':
        if (call) endArgument(call, result);
        return;
      default:
        note(call, token);
        if (isDeclared(open, token)) result.found.add(token);
    }
  });
  return result;
}

/** The name of the call that a bracket opens, where that call gives names to values. */
const declaring = (before: Token | undefined): string =>
  before?.kind === 'call' ? (DECLARING.exec(before.text)?.[1] ?? '').toUpperCase() : '';

/** Adds the token to the argument that is being read; does nothing outside of all calls. */
function note(call: Call | undefined, token: Token): void {
  if (!call) return;
  call.tokens++;
  const isName = token.kind === 'name' || (token.kind === 'bracket' && call.name === 'LAMBDA');
  call.only = call.tokens === 1 && isName ? token : undefined;
}

/** All but the last argument of a LAMBDA are names, and every other one of a LET. */
function endArgument(call: Call, { found, given }: { found: Set<Token>; given: Set<Token> }): void {
  const { name, count, only } = call;
  if (only && (name === 'LAMBDA' || (name === 'LET' && count % 2 === 1))) {
    call.declared.push(only);
    found.add(only);
    given.add(only);
  }
  call.count++;
  call.tokens = 0;
  call.only = undefined;
}

const isDeclared = (open: readonly Call[], { kind, text }: Token): boolean =>
  (kind === 'name' || kind === 'call') &&
  open.some(({ declared }) => declared.some((one) => bare(one.text) === text.toLowerCase()));
const bare = (text: string): string => text.replace(/^\[(.*)\]$/, '$1').toLowerCase();
