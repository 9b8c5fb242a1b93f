/** Texts cut at separators. Source: Microsoft, the pages on TEXTBEFORE, TEXTAFTER, TEXTSPLIT, VALUETOTEXT, ARRAYTOTEXT. */
import { CellError, type Cell, type Matrix } from '../../sheet';
import type { FunctionSpec } from '../function-spec';
import { failure, firstCell, toMatrix, type Value } from '../values';
import { flagOf, fn, numberOf, textOf } from './define';

interface Found {
  readonly at: number;
  readonly length: number;
}

/** Places of separators in a text, from left to right; where two begin at one place the longer counts. */
function placesOf(text: string, separators: readonly string[], ignoresCase: boolean): Found[] {
  const fold = (one: string): string => (ignoresCase ? one.toLowerCase() : one);
  const folded = fold(text);
  const sought = separators.map(fold).sort((a, b) => b.length - a.length);
  const found: Found[] = [];
  for (let at = 0; at < folded.length;) {
    const separator = sought.find((one) => one !== '' && folded.startsWith(one, at));
    if (separator === undefined) at++;
    else {
      found.push({ at, length: separator.length });
      at += separator.length;
    }
  }
  return found;
}

const separatorsOf = (value: Value): string[] => toMatrix(value).flat().map(textOf);

/** TEXTBEFORE and TEXTAFTER: text, separator, which one (from the end when below 0), case, whether the end counts, what instead. */
const part = (take: (text: string, found: Found) => string, whole: (which: number) => boolean): FunctionSpec =>
  fn('cvcccv', 2, ([given, separator, instance, mode, atEnd, instead]) => {
    const text = textOf(firstCell(given));
    const [which, ignoresCase, endCounts] = [numberOf(instance, 1), flagOf(mode), flagOf(atEnd)];
    if (typeof which !== 'number') return which;
    if (typeof ignoresCase !== 'boolean') return ignoresCase;
    if (typeof endCounts !== 'boolean') return endCounts;
    const n = Math.trunc(which);
    if (n === 0 || Math.abs(n) > Math.max(1, text.length)) return failure('#VALUE!');
    const separators = separatorsOf(separator);
    if (separators.includes('')) return whole(n) ? text : '';
    const found = placesOf(text, separators, ignoresCase);
    const at = n > 0 ? found[n - 1] : found.at(n);
    if (at) return take(text, at);
    if (endCounts && Math.abs(n) === found.length + 1) return whole(-n) ? text : '';
    return instead === undefined ? failure('#N/A') : instead;
  });

function split([given, columns, rows, skip, mode, padding]: Value[]): Value {
  const cell = firstCell(given);
  const [skips, ignoresCase] = [flagOf(skip), flagOf(mode)];
  if (cell instanceof CellError) return cell;
  if (typeof skips !== 'boolean') return skips;
  if (typeof ignoresCase !== 'boolean') return ignoresCase;
  const pieces = (text: string, value: Value): string[] => {
    if (value === undefined) return [text];
    const found = placesOf(text, separatorsOf(value), ignoresCase);
    const ends = [...found, { at: text.length, length: 0 }];
    let from = 0;
    const parts = ends.map(({ at, length }) => {
      const one = text.slice(from, at);
      from = at + length;
      return one;
    });
    return skips ? parts.filter((one) => one !== '') : parts;
  };
  const lines = pieces(textOf(cell), rows).map((line) => pieces(line, columns));
  const width = Math.max(...lines.map((line) => line.length));
  if (!lines.length || width < 1) return failure('#CALC!');
  const fill: Cell = padding === undefined ? failure('#N/A') : firstCell(padding);
  return lines.map((line): Cell[] => Array.from({ length: width }, (_cell, c) => line[c] ?? fill));
}

/** As it would be typed: texts in quotes where that is asked for. */
const typed = (cell: Cell, strict: boolean): string =>
  cell instanceof CellError
    ? cell.code
    : strict && typeof cell === 'string'
      ? `"${cell.replaceAll('"', '""')}"`
      : textOf(cell);

function strictness(value: Value): boolean | CellError {
  const kind = numberOf(value);
  if (typeof kind !== 'number') return kind;
  return kind === 0 || kind === 1 ? kind === 1 : failure('#VALUE!');
}

const arrayText = (block: Matrix, strict: boolean): string =>
  strict
    ? `{${block.map((line) => line.map((cell) => typed(cell, true)).join(',')).join(';')}}`
    : block
        .flat()
        .map((cell) => typed(cell, false))
        .join(', ');

export const textPartFunctions: Readonly<Record<string, FunctionSpec>> = {
  TEXTBEFORE: part(
    (text, { at }) => text.slice(0, at),
    (which) => which < 0,
  ),
  TEXTAFTER: part(
    (text, { at, length }) => text.slice(at + length),
    (which) => which > 0,
  ),
  TEXTSPLIT: fn('vvvccv', 2, split),
  VALUETOTEXT: fn(
    'cc',
    1,
    ([value, format]) => {
      const strict = strictness(format);
      return typeof strict === 'boolean' ? typed(firstCell(value), strict) : strict;
    },
    { takesErrors: true },
  ),
  ARRAYTOTEXT: fn('vc', 1, ([array, format]) => {
    const strict = strictness(format);
    return typeof strict === 'boolean' ? arrayText(toMatrix(array), strict) : strict;
  }),
};
