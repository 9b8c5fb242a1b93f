/** Texts. Source: Microsoft, the page of each function; OpenFormula 1.3, 6.20 (Text Functions). */
import { CellError, type Cell } from '../../sheet';
import { cells, MANY, values, type FunctionSpec } from '../function-spec';
import { formattedNumber, formattedText } from '../number-format';
import { rounded } from '../rounding';
import { textNumber } from '../text-number';
import { eachCell, failure, firstCell, toFlag, toMatrix, toNumber, toText, type Value } from '../values';
import { hasWildcard, searchWildcard } from '../wildcard';
import { flagOf, fn, many, numberOf, numbersFrom, textOf } from './define';

/** A cell of a sheet holds no more. */
const LONGEST = 32_767;

/** A function whose first argument is a text and whose others are numbers. */
const cut = (min: number, max: number, apply: (text: string, ...numbers: number[]) => Cell): FunctionSpec =>
  cells(min, max, (text, ...args) => {
    const numbers = numbersFrom(args);
    return numbers instanceof CellError ? numbers : apply(textOf(text), ...numbers);
  });

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

function textJoin(separator: Value, skip: Value, ...given: Value[]): Value {
  const between: string[] = [];
  for (const cell of toMatrix(separator).flat()) {
    const text = toText(cell);
    if (typeof text !== 'string') return text;
    between.push(text);
  }
  const skipEmpty = toFlag(skip === undefined ? true : firstCell(skip));
  return typeof skipEmpty === 'boolean' ? join(given, between, skipEmpty) : skipEmpty;
}

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

const placed = (at: number): Cell => (at < 0 ? failure('#VALUE!') : at + 1);

function search(sought: string, text: string, from: number): Cell {
  const start = Math.trunc(from) - 1;
  if (from < 1 || start > text.length) return failure('#VALUE!');
  return placed(
    hasWildcard(sought) ? searchWildcard(sought, text, start) : text.toLowerCase().indexOf(sought.toLowerCase(), start),
  );
}

function find(sought: string, text: string, from: number): Cell {
  const start = Math.trunc(from) - 1;
  return from < 1 || start > text.length ? failure('#VALUE!') : placed(text.indexOf(sought, start));
}

const finding = (apply: (sought: string, text: string, from: number) => Cell): FunctionSpec =>
  cells(2, 3, (sought, text, from) => {
    const start = from === undefined ? 1 : toNumber(from);
    return typeof start === 'number' ? apply(textOf(sought), textOf(text), start) : start;
  });

const proper = (text: string): string =>
  text
    .toLowerCase()
    .replace(/(^|[^\p{L}])(\p{L})/gu, (_whole, before: string, letter: string) => before + letter.toUpperCase());

/** Of code page 1252, as Excel for Windows counts, the characters from 128 to 159. */
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
  const number = digits < 0 ? rounded(value, digits) : value;
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

const left = cut(1, 2, (text, length = 1) => (length < 0 ? failure('#VALUE!') : text.slice(0, Math.trunc(length))));
const right = cut(1, 2, (text, length = 1) =>
  length < 0 ? failure('#VALUE!') : text.slice(Math.max(0, text.length - Math.trunc(length))),
);
const middle = cut(3, 3, (text, from, length) =>
  from < 1 || length < 0
    ? failure('#VALUE!')
    : text.slice(Math.trunc(from) - 1, Math.trunc(from) - 1 + Math.trunc(length)),
);
const replace = cells(4, 4, (text, from, length, fresh) => {
  const numbers = numbersFrom([from, length]);
  if (numbers instanceof CellError) return numbers;
  const [start, count] = numbers.map(Math.trunc) as [number, number];
  if (start < 1 || count < 0) return failure('#VALUE!');
  const whole = textOf(text);
  return limited(whole.slice(0, start - 1) + textOf(fresh) + whole.slice(start - 1 + count));
});
const length = plain((text) => text.length);

export const textFunctions: Readonly<Record<string, FunctionSpec>> = {
  LEN: length,
  LENB: length,
  UPPER: plain((text) => text.toUpperCase()),
  LOWER: plain((text) => text.toLowerCase()),
  PROPER: plain(proper),
  TRIM: plain((text) => text.replace(/ +/g, ' ').replace(/^ | $/g, '')),
  CLEAN: plain((text) => text.replace(/[\u0000-\u001f]/g, '')),
  CODE: plain(codeOf),
  UNICODE: plain((text) => text.codePointAt(0) ?? failure('#VALUE!')),
  UNICHAR: cut(1, 1, (text) => {
    const code = Number(text);
    const whole = Math.trunc(code);
    if (!(whole >= 1 && whole <= 0x10ffff)) return failure('#VALUE!');
    return whole >= 0xd800 && whole < 0xe000 ? failure('#N/A') : String.fromCodePoint(whole);
  }),
  VALUE: cells(1, 1, (cell) => (typeof cell === 'boolean' ? failure('#VALUE!') : toNumber(cell))),
  NUMBERVALUE: cells(1, 3, (text, point, group) => {
    const decimal = point === undefined ? '.' : textOf(point);
    return numberValue(textOf(text), decimal, group === undefined ? (decimal === ',' ? '.' : ',') : textOf(group));
  }),
  CHAR: cells(1, 1, (cell) => {
    const code = toNumber(cell);
    return typeof code === 'number' ? character(code) : code;
  }),
  T: fn('v', 1, ([value]) => {
    const cell = firstCell(value);
    return typeof cell === 'string' || cell instanceof CellError ? cell : '';
  }),
  EXACT: cells(2, 2, (a, b) => textOf(a) === textOf(b)),
  LEFT: left,
  LEFTB: left,
  RIGHT: right,
  RIGHTB: right,
  MID: middle,
  MIDB: middle,
  REPT: cut(2, 2, (text, times) =>
    times < 0 || text.length * Math.trunc(times) > LONGEST
      ? failure('#VALUE!')
      : text.repeat(text === '' ? 0 : Math.trunc(times)),
  ),
  REPLACE: replace,
  REPLACEB: replace,
  SUBSTITUTE: cells(3, 4, (text, old, fresh, which) => {
    const place = which === undefined ? undefined : toNumber(which);
    return place instanceof CellError ? place : substitute(textOf(text), textOf(old), textOf(fresh), place);
  }),
  TEXT: cells(2, 2, formatted),
  FIXED: fn('ccc', 1, ([value, places, plainDigits]) => {
    const [number, digits, noCommas] = [numberOf(value), numberOf(places, 2), flagOf(plainDigits)];
    if (typeof number !== 'number') return number;
    if (typeof digits !== 'number') return digits;
    return typeof noCommas === 'boolean' ? fixed(number, digits, !noCommas, '') : noCommas;
  }),
  DOLLAR: cells(1, 2, (value, places) => {
    const numbers = numbersFrom([value, places === undefined ? 2 : places]);
    return numbers instanceof CellError ? numbers : fixed(numbers[0]!, numbers[1]!, true, '$');
  }),
  FIND: finding(find),
  FINDB: finding(find),
  SEARCH: finding(search),
  SEARCHB: finding(search),
  CONCAT: values(1, MANY, (...given) => join(given, [''], false)),
  CONCATENATE: cells(1, MANY, (...given) => limited(given.map(textOf).join(''))),
  TEXTJOIN: many('vcv', 3, ([separator, skip, ...given]) => textJoin(separator, skip, ...given)),
};
