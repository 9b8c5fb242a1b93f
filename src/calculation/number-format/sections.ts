/** Number formats cut into sections and pieces. Source: ECMA-376 part 1, 18.8.31 (numFmts); Microsoft, "Number format codes". */
import { COMPARISONS, type Comparison } from '../values';

export type PieceKind =
  /** Text that stands as it is. */
  | 'text'
  /** 0, # or ?. */
  | 'digit'
  | 'point'
  | 'comma'
  | 'percent'
  /** E+ or E-. */
  | 'exponent'
  | 'slash'
  /** y, m, d, h or s, as many as there are; with square brackets for a duration. */
  | 'date'
  | 'half'
  | 'at'
  | 'general';

export interface FormatPiece {
  readonly kind: PieceKind;
  readonly text: string;
}

export const isDigit = ({ kind }: FormatPiece): boolean => kind === 'digit';

/** Where a run of like pieces that begins at a place is over: the index of the first piece that is not like them. */
export function endOfRun(
  pieces: readonly FormatPiece[],
  from: number,
  isLike: (piece: FormatPiece) => boolean,
  step: 1 | -1 = 1,
): number {
  let at = from;
  while (at in pieces && isLike(pieces[at]!)) at += step;
  return at;
}

export interface Condition {
  readonly operator: Comparison;
  readonly limit: number;
}

export interface Section {
  readonly pieces: readonly FormatPiece[];
  readonly condition: Condition | undefined;
  readonly isDate: boolean;
}

const PIECES =
  /"([^"]*)"?|\\(.)|_(.)|\*(.)|\[([^\]]*)\]|(General)|(AM\/PM|A\/P)|([eE][-+])|(y+|m+|d+|h+|s+)|([0#?])|(\.)|(,)|(%)|(\/)|(@)|([^])/giu;

const KINDS: readonly (readonly [number, PieceKind])[] = [
  [6, 'general'],
  [7, 'half'],
  [8, 'exponent'],
  [9, 'date'],
  [10, 'digit'],
  [11, 'point'],
  [12, 'comma'],
  [13, 'percent'],
  [14, 'slash'],
  [15, 'at'],
];

/** A format's sections, of which there are at most four. */
export const sectionsOf = (format: string): Section[] => split(format).map(sectionOf);

/** A semicolon in quotes or after a backslash does not end a section. */
function split(format: string): string[] {
  const parts = [''];
  for (const [piece] of format.matchAll(/"[^"]*"?|\\.|\[[^\]]*\]|[^]/g))
    if (piece === ';') parts.push('');
    else parts[parts.length - 1] += piece;
  return parts;
}

function sectionOf(text: string): Section {
  let condition: Condition | undefined;
  const pieces: FormatPiece[] = [];
  for (const match of text.matchAll(PIECES)) {
    const kind = KINDS.find(([group]) => match[group] !== undefined);
    if (kind) pieces.push({ kind: kind[1], text: match[0] });
    else if (match[5] !== undefined) {
      const found = bracket(match[5]);
      if (found && 'operator' in found) condition = found;
      else if (found) pieces.push(found);
    } else pieces.push({ kind: 'text', text: literal(match) });
  }
  return { pieces, condition, isDate: pieces.some(({ kind }) => kind === 'date' || kind === 'half') };
}

/** A quoted text, a single character, or a space for the width of one (_x). What fills a cell's width (*x) is left out: a text has none. */
function literal(match: RegExpMatchArray): string {
  if (match[4] !== undefined) return '';
  return match[1] ?? match[2] ?? (match[3] === undefined ? match[0] : ' ');
}

/** A condition, a duration's unit or a currency. Colours and whatever else stands in brackets change nothing in a text. */
function bracket(text: string): Condition | FormatPiece | undefined {
  const condition = /^(<=|>=|<>|<|>|=)(-?\d+(?:\.\d+)?)$/.exec(text);
  if (condition) return { operator: condition[1] as Comparison, limit: Number(condition[2]) };
  if (/^(h+|m+|s+)$/i.test(text)) return { kind: 'date', text: `[${text.toLowerCase()}]` };
  const currency = /^\$([^-]*)/.exec(text);
  return currency ? { kind: 'text', text: currency[1]! } : undefined;
}

export const meets = (value: number, { operator, limit }: Condition): boolean => COMPARISONS[operator](value - limit);
