/** Texts. Source: Microsoft, the page of each function; OpenFormula 1.3, 6.20 (Text Functions). */
import { CellError, type Cell, type Matrix } from '../../sheet';
import { formattedNumber, formattedText } from '../number-format';
import { textNumber } from '../text-number';
import { eachCell, failure, firstCell, toFlag, toMatrix, toNumber, toText, type Value } from '../values';
import { hasWildcard, searchWildcard } from '../wildcard';
import {
  cells,
  errorIn,
  flagOf,
  fn,
  integerOf,
  made,
  MANY,
  many,
  numberOf,
  numbersFrom,
  paddingOf,
  textOf,
  unlessError,
  values,
  type Family,
  type FunctionSpec,
} from './define';
import { roundAt } from './numbers';

/** A cell of a sheet holds no more. */
const LONGEST = 32_767;

/** A function whose first argument is a text and whose others are numbers. */
const cut = (min: number, max: number, apply: (text: string, ...numbers: number[]) => Cell): FunctionSpec =>
  cells(min, max, (text, ...args) => unlessError([numbersFrom(args)], (numbers) => apply(textOf(text), ...numbers)));

const plain = (apply: (text: string) => Cell): FunctionSpec => cells(1, 1, (cell) => apply(textOf(cell)));

const limited = (text: string): Cell => (text.length > LONGEST ? failure('#VALUE!') : text);

/** Texts of values one after the other; the first error is the result. */
function join(given: readonly Value[], between: readonly string[], skipEmpty: boolean): Cell {
  let joined = '';
  let count = 0;
  let error: CellError | undefined;
  for (const value of given) {
    eachCell(value, (cell) => {
      if (cell instanceof CellError) error ??= cell;
      else if ((!skipEmpty || textOf(cell) !== '') && joined.length <= LONGEST) {
        joined += (count > 0 ? between[(count - 1) % between.length] : '') + textOf(cell);
        count++;
      }
    });
  }
  return error ?? limited(joined);
}

const textJoin = ([separator, skip, ...given]: Value[]): Value => {
  const between = toMatrix(separator).flat().map(toText);
  return (
    errorIn(between) ??
    unlessError([toFlag(skip === undefined ? true : firstCell(skip))], (skipEmpty) =>
      join(given, between as string[], skipEmpty),
    )
  );
};

function substitute(text: string, old: string, fresh: string, which: number | undefined): Cell {
  if (which !== undefined && which < 1) return failure('#VALUE!');
  if (old === '') return text;
  if (which === undefined) return limited(text.split(old).join(fresh));
  let at = -1;
  for (let seen = 0; seen < Math.trunc(which); seen++) {
    at = text.indexOf(old, at < 0 ? 0 : at + old.length);
    if (at < 0) return text;
  }
  return limited(text.slice(0, at) + fresh + text.slice(at + old.length));
}

/** FIND and SEARCH: `place` says where from a start on, -1 where not. */
const finding = (place: (sought: string, text: string, start: number) => number): FunctionSpec =>
  cells(2, 3, (sought, text, given) =>
    unlessError([given === undefined ? 1 : toNumber(given)], (from) => {
      const start = Math.trunc(from) - 1;
      const own = textOf(text);
      if (from < 1 || start > own.length) return failure('#VALUE!');
      const at = place(textOf(sought), own, start);
      return at < 0 ? failure('#VALUE!') : at + 1;
    }),
  );

const proper = (text: string): string =>
  text
    .toLowerCase()
    .replace(/(^|[^\p{L}])(\p{L})/gu, (_whole, before: string, letter: string) => before + letter.toUpperCase());

/** The characters from 128 to 159 of code page 1252, by which Excel for Windows counts. */
const CP1252 = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';

function character(code: number): Cell {
  const whole = Math.trunc(code);
  if (whole < 1 || whole > 255) return failure('#VALUE!');
  return whole >= 128 && whole < 160 ? CP1252[whole - 128]! : String.fromCharCode(whole);
}

function codeOf(text: string): Cell {
  if (text === '') return failure('#VALUE!');
  const place = CP1252.indexOf(text[0]!);
  const code = text.charCodeAt(0);
  return place >= 0 ? place + 128 : code < 256 ? code : 63;
}

function formatted(cell: Cell | undefined, format: Cell | undefined): Cell {
  const pattern = textOf(format);
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  const number = typeof cell === 'string' ? textNumber(cell) : toNumber(cell);
  if (number === undefined) return limited(formattedText(textOf(cell), pattern));
  if (typeof number !== 'number') return number;
  return formattedNumber(number, pattern) ?? failure('#VALUE!');
}

/** FIXED and DOLLAR: rounded, with thousands unless they are not wanted. */
function fixed(value: number, places: number, grouped: boolean, currency: string): Cell {
  const digits = Math.trunc(places);
  if (digits > 127) return failure('#VALUE!');
  const number = digits < 0 ? roundAt(value, digits, Math.round) : value;
  const pattern = `${currency}${grouped ? '#,##0' : '0'}${digits > 0 ? `.${'0'.repeat(digits)}` : ''}`;
  return formattedNumber(number, currency ? `${pattern};(${pattern})` : pattern) ?? failure('#VALUE!');
}

/** NUMBERVALUE: a text with the signs that another country has for the point and for thousands. */
function numberValue(text: string, point: string, group: string): Cell {
  if (point === '' || group === '' || point[0] === group[0]) return failure('#VALUE!');
  const bare = text.replace(/\s/g, '');
  if (bare === '') return 0;
  const place = bare.indexOf(point[0]!);
  const [whole, rest] = place < 0 ? [bare, ''] : [bare.slice(0, place), bare.slice(place + 1)];
  if (rest.includes(group[0]!) || rest.includes(point[0]!)) return failure('#VALUE!');
  const plainText = whole.split(group[0]!).join('') + (place < 0 ? '' : `.${rest}`);
  const [, digits = '', percents = ''] = /^(.*?)(%*)$/.exec(plainText)!;
  const number = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?$/.test(digits) ? Number(digits) : Number.NaN;
  return Number.isFinite(number) ? number / 100 ** percents.length : failure('#VALUE!');
}

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
  fn('cvcccv', 2, ([given, separator, instance, mode, atEnd, instead]) =>
    unlessError([integerOf(instance, 1), flagOf(mode), flagOf(atEnd)], (n, ignoresCase, endCounts) => {
      const text = textOf(firstCell(given));
      if (n === 0 || Math.abs(n) > Math.max(1, text.length)) return failure('#VALUE!');
      const separators = separatorsOf(separator);
      if (separators.includes('')) return whole(n) ? text : '';
      const found = placesOf(text, separators, ignoresCase);
      const at = n > 0 ? found[n - 1] : found.at(n);
      if (at) return take(text, at);
      if (endCounts && Math.abs(n) === found.length + 1) return whole(-n) ? text : '';
      return instead === undefined ? failure('#N/A') : instead;
    }),
  );

const split = ([given, columns, rows, skip, mode, padding]: Value[]): Value =>
  unlessError([firstCell(given), flagOf(skip), flagOf(mode)], (cell, skips, ignoresCase) => {
    const pieces = (text: string, value: Value): string[] => {
      if (value === undefined) return [text];
      const found = placesOf(text, separatorsOf(value), ignoresCase);
      const starts = [0, ...found.map(({ at, length }) => at + length)];
      const parts = starts.map((start, index) => text.slice(start, found[index]?.at));
      return skips ? parts.filter((one) => one !== '') : parts;
    };
    const lines = pieces(textOf(cell), rows).map((line) => pieces(line, columns));
    const width = Math.max(...lines.map((line) => line.length));
    if (!lines.length || width < 1) return failure('#CALC!');
    const fill = paddingOf(padding);
    return made(lines.length, width, (r, c) => lines[r]![c] ?? fill);
  });

/** As it would be typed: texts in quotes where that is asked for. */
const typed = (cell: Cell, strict: boolean): string =>
  cell instanceof CellError
    ? cell.code
    : strict && typeof cell === 'string'
      ? `"${cell.replaceAll('"', '""')}"`
      : textOf(cell);

/** Whether a format asks for texts as they would be typed. */
const strictness = (value: Value): boolean | CellError =>
  unlessError([numberOf(value)], (kind) => (kind === 0 || kind === 1 ? kind === 1 : failure('#VALUE!')));

const arrayText = (block: Matrix, strict: boolean): string =>
  strict
    ? `{${block.map((line) => line.map((cell) => typed(cell, true)).join(',')).join(';')}}`
    : block
        .flat()
        .map((cell) => typed(cell, false))
        .join(', ');

export const textFunctions: Family = {
  LEN: plain((text) => text.length),
  LENB: 'LEN',
  UPPER: plain((text) => text.toUpperCase()),
  LOWER: plain((text) => text.toLowerCase()),
  PROPER: plain(proper),
  TRIM: plain((text) => text.replace(/ +/g, ' ').replace(/^ | $/g, '')),
  CLEAN: plain((text) => text.replace(/[\u0000-\u001f]/g, '')),
  CODE: plain(codeOf),
  UNICODE: plain((text) => text.codePointAt(0) ?? failure('#VALUE!')),
  UNICHAR: cut(1, 1, (text) => {
    const whole = Math.trunc(Number(text));
    if (!(whole >= 1 && whole <= 0x10ffff)) return failure('#VALUE!');
    return whole >= 0xd800 && whole < 0xe000 ? failure('#N/A') : String.fromCodePoint(whole);
  }),
  VALUE: cells(1, 1, (cell) => (typeof cell === 'boolean' ? failure('#VALUE!') : toNumber(cell))),
  NUMBERVALUE: cells(1, 3, (text, point, group) => {
    const decimal = point === undefined ? '.' : textOf(point);
    return numberValue(textOf(text), decimal, group === undefined ? (decimal === ',' ? '.' : ',') : textOf(group));
  }),
  CHAR: cells(1, 1, (cell) => unlessError([toNumber(cell)], character)),
  T: fn('v', 1, ([value]) => {
    const cell = firstCell(value);
    return typeof cell === 'string' || cell instanceof CellError ? cell : '';
  }),
  EXACT: cells(2, 2, (a, b) => textOf(a) === textOf(b)),
  LEFT: cut(1, 2, (text, length = 1) => (length < 0 ? failure('#VALUE!') : text.slice(0, Math.trunc(length)))),
  LEFTB: 'LEFT',
  RIGHT: cut(1, 2, (text, length = 1) =>
    length < 0 ? failure('#VALUE!') : text.slice(Math.max(0, text.length - Math.trunc(length))),
  ),
  RIGHTB: 'RIGHT',
  MID: cut(3, 3, (text, from, length) =>
    from < 1 || length < 0
      ? failure('#VALUE!')
      : text.slice(Math.trunc(from) - 1, Math.trunc(from) - 1 + Math.trunc(length)),
  ),
  MIDB: 'MID',
  REPT: cut(2, 2, (text, times) =>
    times < 0 || text.length * Math.trunc(times) > LONGEST
      ? failure('#VALUE!')
      : text.repeat(text === '' ? 0 : Math.trunc(times)),
  ),
  REPLACE: cells(4, 4, (text, from, length, fresh) =>
    unlessError([numbersFrom([from, length])], (numbers) => {
      const [start, count] = [Math.trunc(numbers[0]), Math.trunc(numbers[1])];
      if (start < 1 || count < 0) return failure('#VALUE!');
      const whole = textOf(text);
      return limited(whole.slice(0, start - 1) + textOf(fresh) + whole.slice(start - 1 + count));
    }),
  ),
  REPLACEB: 'REPLACE',
  SUBSTITUTE: cells(3, 4, (text, old, fresh, which) =>
    unlessError([which === undefined ? undefined : toNumber(which)], (place) =>
      substitute(textOf(text), textOf(old), textOf(fresh), place),
    ),
  ),
  TEXT: cells(2, 2, formatted),
  FIXED: fn('ccc', 1, ([value, places, plainDigits]) =>
    unlessError([numberOf(value), numberOf(places, 2), flagOf(plainDigits)], (number, digits, noCommas) =>
      fixed(number, digits, !noCommas, ''),
    ),
  ),
  DOLLAR: cells(1, 2, (value, places) =>
    unlessError([numbersFrom([value, places === undefined ? 2 : places])], ([number, digits]) =>
      fixed(number, digits, true, '$'),
    ),
  ),
  FIND: finding((sought, text, start) => text.indexOf(sought, start)),
  FINDB: 'FIND',
  SEARCH: finding((sought, text, start) =>
    hasWildcard(sought) ? searchWildcard(sought, text, start) : text.toLowerCase().indexOf(sought.toLowerCase(), start),
  ),
  SEARCHB: 'SEARCH',
  CONCAT: values(1, MANY, (...given) => join(given, [''], false)),
  CONCATENATE: cells(1, MANY, (...given) => limited(given.map(textOf).join(''))),
  TEXTJOIN: many('vcv', 3, textJoin),
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
    ([value, format]) => unlessError([strictness(format)], (strict) => typed(firstCell(value), strict)),
    { takesErrors: true },
  ),
  ARRAYTOTEXT: fn('vc', 1, ([array, format]) =>
    unlessError([strictness(format)], (strict) => arrayText(toMatrix(array), strict)),
  ),
};
