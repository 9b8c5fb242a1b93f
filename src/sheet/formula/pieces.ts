/** A formula as text, cut into pieces: for changes that leave everything else in it as it was typed. */

/** 'call': a name with "(" after it; 'sheet': one with "!" after it, quoted or not; 'table': one with "[" after it. */
export type PieceKind = 'text' | 'call' | 'sheet' | 'table' | 'word' | 'bracket' | 'other';

export interface Piece {
  readonly kind: PieceKind;
  readonly text: string;
}

const PIECES = /"(?:[^"]|"")*"?|'(?:[^']|'')*'?|[\p{L}\p{N}_$.\\?]+|\s+|[^]/gu;
const AFTER: Readonly<Record<string, PieceKind>> = { '(': 'call', '!': 'sheet', '[': 'table' };

/** The pieces of a formula; joined, they are the formula again. */
export function pieces(formula: string): Piece[] {
  const found: Piece[] = [];
  PIECES.lastIndex = 0;
  const pattern = new RegExp(PIECES);
  for (let match = pattern.exec(formula); match; match = pattern.exec(formula)) {
    const [text] = match;
    if (text === '[') {
      const end = bracketEnd(formula, match.index);
      pattern.lastIndex = end;
      found.push({ kind: 'bracket', text: formula.slice(match.index, end) });
    } else if (text.startsWith('"')) found.push({ kind: 'text', text });
    else if (text.startsWith("'")) found.push({ kind: 'sheet', text });
    else if (/^[\p{L}\p{N}_$.\\?]/u.test(text))
      found.push({ kind: AFTER[formula[pattern.lastIndex] ?? ''] ?? 'word', text });
    else found.push({ kind: 'other', text });
  }
  return found;
}

/** End of a table's brackets, which nest and in which an apostrophe takes the next character's meaning away. */
function bracketEnd(formula: string, start: number): number {
  let depth = 0;
  for (let at = start; at < formula.length; at++) {
    if (formula[at] === "'") at++;
    else if (formula[at] === '[') depth++;
    else if (formula[at] === ']' && --depth === 0) return at + 1;
  }
  return formula.length;
}
