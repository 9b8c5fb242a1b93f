/** Names that LET and LAMBDA give to values. They are not names of the workbook. */
import type { Token } from './tokens';

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
  const found = new Set<Token>();
  const given = new Set<Token>();
  const result = { found, given };
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
        if (isDeclared(open, token)) found.add(token);
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
  const isName = call.only !== undefined && (call.name === 'LAMBDA' || (call.name === 'LET' && call.count % 2 === 1));
  if (isName) {
    call.declared.push(call.only!);
    found.add(call.only!);
    given.add(call.only!);
  }
  call.count++;
  call.tokens = 0;
  call.only = undefined;
}

const isDeclared = (open: readonly Call[], { kind, text }: Token): boolean =>
  (kind === 'name' || kind === 'call') &&
  open.some(({ declared }) => declared.some((one) => bare(one.text) === text.toLowerCase()));
const bare = (text: string): string => text.replace(/^\[(.*)\]$/, '$1').toLowerCase();
