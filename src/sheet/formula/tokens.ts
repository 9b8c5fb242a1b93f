/** A formula as tokens, for changes that leave everything else in it as it was typed. */
import { FormulaScanner, type TokenKind } from './scan';

export interface Token {
  readonly kind: TokenKind;
  readonly text: string;
  /** Where it stands in the formula. */
  readonly start: number;
}

/** The tokens of a formula (without its "="). Joined, they are the formula, whatever is in it. */
export function tokens(formula: string): Token[] {
  const scanner = new FormulaScanner(formula);
  const found: Token[] = [];
  while (scanner.next())
    found.push({ kind: scanner.kind, text: formula.slice(scanner.start, scanner.end), start: scanner.start });
  return found;
}

/** Texts in places of a formula, which do not overlap. */
export interface Replacement {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** A formula with texts put into places of it. */
export function replaced(formula: string, changes: readonly Replacement[]): string {
  if (changes.length === 0) return formula;
  let out = '';
  let from = 0;
  for (const { start, end, text } of [...changes].sort((a, b) => a.start - b.start)) {
    out += formula.slice(from, start) + text;
    from = end;
  }
  return out + formula.slice(from);
}

/**
 * A formula with some of its tokens changed.
 * @param change gives a token's new text; undefined where it stays. It is told the token's place among all.
 */
export const rewrite = (
  formula: string,
  change: (token: Token, index: number, all: readonly Token[]) => string | undefined,
): string =>
  replaced(
    formula,
    tokens(formula).flatMap((token, index, all) => {
      const { start, text: old } = token;
      const text = change(token, index, all);
      return text === undefined || text === old ? [] : [{ start, end: start + old.length, text }];
    }),
  );
