/** Texts. */
import { CellError, type Cell } from '../../sheet';
import { wildcard } from '../criteria';
import { isSimpleFormat, numberText } from '../number-text';
import { cells, MANY, values, type FunctionSpec } from '../function-spec';
import { eachCell, failure, textNumber, toFlag, toMatrix, toNumber, toText, type Value } from '../values';

/** A cell of a sheet holds no more. */
const LONGEST = 32_767;

const textOf = (cell: Cell | undefined): string => {
  const text = toText(cell);
  return typeof text === 'string' ? text : '';
};

/** A function whose first argument is a text and whose others are numbers. */
const cut = (min: number, max: number, apply: (text: string, ...numbers: number[]) => Cell): FunctionSpec =>
  cells(min, max, (text, ...args) => {
    const numbers: number[] = [];
    for (const arg of args) {
      const number = arg === undefined ? (undefined as never as number) : toNumber(arg);
      if (number instanceof CellError) return number;
      numbers.push(number);
    }
    return apply(textOf(text), ...numbers);
  });

const plain = (apply: (text: string) => Cell): FunctionSpec => cells(1, 1, (cell) => apply(textOf(cell)));

const limited = (text: string): Cell => (text.length > LONGEST ? failure('#VALUE!') : text);

/** Texts of values one after the other; the first error is the result. */
function join(given: readonly Value[], separator: string, skipEmpty: boolean): Cell {
  const texts: string[] = [];
  let error: CellError | undefined;
  for (const value of given) {
    eachCell(value, (cell) => {
      if (cell instanceof CellError) error ??= cell;
      else if (!skipEmpty || textOf(cell) !== '') texts.push(textOf(cell));
    });
  }
  return error ?? limited(texts.join(separator));
}

function textJoin(separator: Value, skip: Value, ...given: Value[]): Value {
  const between = toText(toMatrix(separator)[0]![0]!);
  const skipEmpty = toFlag(skip === undefined ? true : toMatrix(skip)[0]![0]!);
  if (typeof between !== 'string') return between;
  return typeof skipEmpty === 'boolean' ? join(given, between, skipEmpty) : skipEmpty;
}

function substitute(text: string, old: string, fresh: string, which: number | undefined): Cell {
  if (old === '') return text;
  if (which === undefined) return limited(text.split(old).join(fresh));
  if (which < 1) return failure('#VALUE!');
  let at = -1;
  for (let seen = 0; seen < Math.trunc(which); seen++) {
    at = text.indexOf(old, at + 1);
    if (at < 0) return text;
  }
  return limited(text.slice(0, at) + fresh + text.slice(at + old.length));
}

function search(sought: string, text: string, from: number): Cell {
  if (from < 1 || from > text.length + 1) return failure('#VALUE!');
  const matches = wildcard(`${sought}*`);
  for (let at = Math.trunc(from) - 1; at <= text.length; at++) if (matches(text.slice(at))) return at + 1;
  return failure('#VALUE!');
}

const find = (sought: string, text: string, from: number): Cell => {
  const at = from < 1 ? -1 : text.indexOf(sought, Math.trunc(from) - 1);
  return at < 0 ? failure('#VALUE!') : at + 1;
};

const finding = (apply: (sought: string, text: string, from: number) => Cell): FunctionSpec =>
  cells(2, 3, (sought, text, from) => {
    const start = from === undefined ? 1 : toNumber(from);
    return typeof start === 'number' ? apply(textOf(sought), textOf(text), start) : start;
  });

const proper = (text: string): string =>
  text
    .toLowerCase()
    .replace(/(^|[^\p{L}])(\p{L})/gu, (_whole, before: string, letter: string) => before + letter.toUpperCase());

export const textFunctions: Readonly<Record<string, FunctionSpec>> = {
  LEN: plain((text) => text.length),
  UPPER: plain((text) => text.toUpperCase()),
  LOWER: plain((text) => text.toLowerCase()),
  PROPER: plain(proper),
  TRIM: plain((text) => text.replace(/ +/g, ' ').replace(/^ | $/g, '')),
  CLEAN: plain((text) => text.replace(/[\u0000-\u001f]/g, '')),
  CODE: plain((text) => (text === '' ? failure('#VALUE!') : text.charCodeAt(0))),
  VALUE: cells(1, 1, (cell) => (typeof cell === 'string' ? (textNumber(cell) ?? failure('#VALUE!')) : toNumber(cell))),
  CHAR: cells(1, 1, (cell) => {
    const code = toNumber(cell);
    return typeof code !== 'number'
      ? code
      : code >= 1 && code < 256
        ? String.fromCharCode(Math.trunc(code))
        : failure('#VALUE!');
  }),
  T: cells(1, 1, (cell) => (typeof cell === 'string' ? cell : '')),
  N: cells(1, 1, (cell) => (typeof cell === 'number' ? cell : cell === true ? 1 : 0)),
  EXACT: cells(2, 2, (a, b) => textOf(a) === textOf(b)),
  LEFT: cut(1, 2, (text, length = 1) => (length < 0 ? failure('#VALUE!') : text.slice(0, Math.trunc(length)))),
  RIGHT: cut(1, 2, (text, length = 1) =>
    length < 0 ? failure('#VALUE!') : text.slice(Math.max(0, text.length - Math.trunc(length))),
  ),
  MID: cut(3, 3, (text, from, length) =>
    from < 1 || length < 0
      ? failure('#VALUE!')
      : text.slice(Math.trunc(from) - 1, Math.trunc(from) - 1 + Math.trunc(length)),
  ),
  REPT: cut(2, 2, (text, times) =>
    times < 0 || text.length * times > LONGEST ? failure('#VALUE!') : text.repeat(Math.trunc(times)),
  ),
  REPLACE: cells(4, 4, (text, from, length, fresh) => {
    const start = toNumber(from);
    const count = toNumber(length);
    if (typeof start !== 'number') return start;
    if (typeof count !== 'number') return count;
    if (start < 1 || count < 0) return failure('#VALUE!');
    const whole = textOf(text);
    return limited(
      whole.slice(0, Math.trunc(start) - 1) + textOf(fresh) + whole.slice(Math.trunc(start) - 1 + Math.trunc(count)),
    );
  }),
  SUBSTITUTE: cells(3, 4, (text, old, fresh, which) => {
    const place = which === undefined ? undefined : toNumber(which);
    return place instanceof CellError ? place : substitute(textOf(text), textOf(old), textOf(fresh), place);
  }),
  TEXT: cells(
    2,
    2,
    (cell, format) => {
      const number = typeof cell === 'string' ? textNumber(cell) : toNumber(cell);
      return typeof number === 'number' ? numberText(number, textOf(format)) : (number ?? cell ?? '');
    },
    {
      knows: ([, format]) =>
        format?.kind === 'value' && typeof format.value === 'string' && isSimpleFormat(format.value),
    },
  ),
  FIND: finding(find),
  SEARCH: finding(search),
  CONCAT: values(1, MANY, (...given) => join(given, '', false)),
  CONCATENATE: cells(1, MANY, (...given) => limited(given.map(textOf).join(''))),
  TEXTJOIN: values(3, MANY, textJoin),
};
