/**
 * How conditional formats have cells look, as the workbook is now calculated. Formulas go to the one calculation; what
 * depends on all cells of a rule is counted once after each calculation, when a cell of it is first asked for. Source of
 * the order and of stopping: ECMA-376 part 1, 18.3.1.10.
 */
import type { Workbook as EngineWorkbook } from '@univerjs/core';
import { entryOf } from '../../../core/memoized';
import { CellError, isInRange, rangeName, type Cell, type Result } from '../../../sheet';
import type { Condition, ConditionalLook, ConditionalRule, Scale, Threshold } from '../../../xlsx/extras/conditions';
import { cellReader } from '../cells';
import type { Engine } from '../engine';
import type { WrittenFormula } from '../mirror';
import { cellKey } from '../places';

/** Where conditions find values: sheets by the engine's ids. */
export interface Values {
  /** Reads the cells of a sheet, as long as nothing is edited. */
  of(sheet: string): (row: number, column: number) => Cell;
  /** What a formula gives for a cell; undefined while that is being found out: `known` is called then. */
  given(written: WrittenFormula, cell: readonly [row: number, column: number], known: () => void): Result | undefined;
  /** How many rows and columns a sheet has. */
  size(sheet: string): { readonly rows: number; readonly columns: number };
}

/** Values of an open workbook for conditions, and what formulas that stand in no cell give. */
export function valuesOf(engine: Engine, book: EngineWorkbook): Values {
  return {
    of(sheet) {
      const worksheet = book.getSheetBySheetId(sheet);
      return worksheet ? cellReader(engine.injector, worksheet) : () => null;
    },
    given: (written, cell, known) => engine.calculation.given(book.getUnitId(), written, cell, known),
    size(sheet) {
      const worksheet = book.getSheetBySheetId(sheet);
      return { rows: worksheet?.getRowCount() ?? 0, columns: worksheet?.getColumnCount() ?? 0 };
    },
  };
}

/** A bar in a cell: both ends as parts of its width. */
export interface Bar {
  readonly from: number;
  readonly to: number;
  readonly color: string;
}

/** A mark at the start of a cell. */
export interface Icon {
  readonly sign: '▲' | '▶' | '▼' | '●';
  readonly color: string;
}

export interface CellLook extends ConditionalLook {
  readonly bar?: Bar;
  readonly icon?: Icon;
}

export class ConditionalLooks {
  private bySheet: ReadonlyMap<string, readonly ConditionalRule[]> = new Map();
  /** By sheet and cell; null where the rules say nothing. */
  private looks = new Map<string, Map<number, CellLook | null>>();
  /** Those from before the last calculation, shown until they are looked at anew. */
  private before = this.looks;
  private readonly numbers = new Map<string, readonly number[]>();
  private spent = 0;
  private isWaiting = false;
  /** True where a formula is asked whose result is not known yet. */
  private isAsking = false;
  private readonly tests = new Map<ConditionalRule, Test>();

  /**
   * @param more is called when cells wait to be asked for again: as many are looked at in one turn as a person does not
   * notice, and the others look as they did; without it all are looked at when they are asked for
   */
  constructor(
    private readonly values: Values,
    private readonly more?: () => void,
  ) {}

  take(rules: readonly (readonly [sheet: string, rules: readonly ConditionalRule[]])[]): void {
    this.bySheet = new Map(rules.filter(([, own]) => own.length > 0));
    this.looks.clear();
    this.recalculated();
  }

  /** Values may be others now. */
  recalculated(): void {
    if (this.looks.size > 0) this.before = this.looks;
    this.looks = new Map();
    this.tests.clear();
    this.numbers.clear();
    this.spent = 0;
  }

  get isEmpty(): boolean {
    return this.bySheet.size === 0;
  }

  /** How a cell looks by the rules; undefined where they say nothing. */
  at(sheet: string, row: number, column: number): CellLook | undefined {
    const rules = this.bySheet.get(sheet);
    if (!rules) return undefined;
    const known = entryOf(this.looks, sheet, () => new Map<number, CellLook | null>());
    const key = cellKey(row, column);
    const found = known.get(key);
    if (found !== undefined) return found ?? undefined;
    if (this.more && this.spent > AT_ONCE) {
      this.wait();
      return this.before.get(sheet)?.get(key) ?? undefined;
    }
    const start = performance.now();
    this.isAsking = false;
    const look = this.looked(sheet, rules, row, column);
    this.spent += performance.now() - start;
    if (this.isAsking) return this.before.get(sheet)?.get(key) ?? undefined;
    known.set(key, look ?? null);
    return look;
  }

  private wait(): void {
    if (this.isWaiting) return;
    this.isWaiting = true;
    setTimeout(() => {
      this.isWaiting = false;
      this.spent = 0;
      this.more?.();
    });
  }

  private looked(sheet: string, rules: readonly ConditionalRule[], row: number, column: number): CellLook | undefined {
    let look: CellLook | undefined;
    const valueAt = this.values.of(sheet);
    for (const rule of rules) {
      if (!rule.areas.some((area) => isInRange(area, row, column))) continue;
      let test = this.tests.get(rule);
      if (!test) {
        test = testOf(rule, this.cellsOf(rule, sheet));
        // What it rests on may not be known yet: it is made again then.
        if (this.isAsking) return undefined;
        this.tests.set(rule, test);
      }
      const own = test(row, column, valueAt(row, column));
      if (this.isAsking) return undefined;
      if (!own) continue;
      // What a rule before this one says, stays.
      look = { ...own, ...look };
      if (rule.stops) break;
    }
    return look && Object.keys(look).length > 0 ? look : undefined;
  }

  private cellsOf({ areas, base }: ConditionalRule, sheet: string): RuleCells {
    const { values } = this;
    const given = (formula: string, row: number, column: number): Result => {
      const result = values.given({ sheet, ...base, formula }, [row, column], () => this.more?.());
      if (result === undefined) this.isAsking = true;
      return result ?? null;
    };
    const each = (take: (value: Cell) => void): void => {
      const size = values.size(sheet);
      const valueAt = values.of(sheet);
      for (const { row, column, rows, columns } of areas)
        for (let r = row; r < Math.min(row + rows, size.rows); r++)
          for (let c = column; c < Math.min(column + columns, size.columns); c++) {
            const value = valueAt(r, c);
            if (value !== null) take(value);
          }
    };
    return {
      given,
      result: (formula) => given(formula, base.row, base.column),
      each,
      // Several rules mostly stand over the same cells.
      numbers: () =>
        entryOf(this.numbers, `${sheet} ${areas.map(rangeName).join(' ')}`, () => {
          const numbers: number[] = [];
          each((value) => {
            if (typeof value === 'number') numbers.push(value);
          });
          return numbers.sort((a, b) => a - b);
        }),
    };
  }
}

/** Milliseconds that the conditions of the cells in view may take in one turn. */
const AT_ONCE = 40;

/** The cells of one rule. */
interface RuleCells {
  readonly given: (formula: string, row: number, column: number) => Result;
  /** What a formula gives in the cell that it is written for. */
  readonly result: (formula: string) => Result;
  /** Numbers of all of them, the least first. */
  readonly numbers: () => readonly number[];
  readonly each: (take: (value: Cell) => void) => void;
}

type Test = (row: number, column: number, value: Cell) => CellLook | undefined;

function testOf(rule: ConditionalRule, cells: RuleCells): Test {
  if ('scale' in rule) return scaleTest(rule.scale, cells);
  const { look } = rule;
  const holds = conditionTest(rule.condition, cells);
  return (row, column, value) => (holds(row, column, value) ? look : undefined);
}

function conditionTest(condition: Condition, cells: RuleCells): (row: number, column: number, value: Cell) => boolean {
  switch (condition.type) {
    case 'formula':
      return (row, column) => isTrue(cells.given(condition.formula, row, column));
    case 'top':
      return topTest(condition, cells.numbers());
    case 'average':
      return averageTest(condition, cells.numbers());
    case 'repeated': {
      const counts = new Map<string, number>();
      cells.each((value) => counts.set(keyOf(value), (counts.get(keyOf(value)) ?? 0) + 1));
      return (_row, _column, value) =>
        value !== null && (condition.isUnique ? counts.get(keyOf(value)) === 1 : counts.get(keyOf(value))! > 1);
    }
  }
}

/** Texts compare without case, as everywhere in a spreadsheet. */
const keyOf = (value: Cell): string =>
  value instanceof CellError ? value.code : `${typeof value} ${String(value).toLowerCase()}`;

const firstOf = (result: Result): Cell | undefined => (Array.isArray(result) ? result[0]?.[0] : result);

/** A condition holds by any number but 0, and not by an error. */
function isTrue(result: Result): boolean {
  const first = firstOf(result);
  return first === true || (typeof first === 'number' && first !== 0);
}

function topTest(
  { rank, isPercent, isBottom }: Extract<Condition, { type: 'top' }>,
  numbers: readonly number[],
): (row: number, column: number, value: Cell) => boolean {
  const count = isPercent ? Math.max(1, Math.floor((numbers.length * rank) / 100)) : rank;
  const last = isBottom ? numbers[Math.min(count, numbers.length) - 1] : numbers[Math.max(0, numbers.length - count)];
  return (_row, _column, value) =>
    typeof value === 'number' && last !== undefined && (isBottom ? value <= last : value >= last);
}

function averageTest(
  { isAbove, includes, deviations }: Extract<Condition, { type: 'average' }>,
  numbers: readonly number[],
): (row: number, column: number, value: Cell) => boolean {
  const mean = numbers.reduce((sum, one) => sum + one, 0) / numbers.length;
  const squares = numbers.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  const spread = deviations > 0 ? deviations * Math.sqrt(squares / Math.max(1, numbers.length - 1)) : 0;
  const bound = isAbove ? mean + spread : mean - spread;
  return (_row, _column, value) =>
    typeof value === 'number' && ((isAbove ? value > bound : value < bound) || (includes && value === bound));
}

function scaleTest(scale: Scale, cells: RuleCells): Test {
  const numbers = cells.numbers();
  const places = scale.thresholds.map((one) => placeOf(one, numbers, cells.result));
  if (numbers.length === 0 || places.some((place) => !Number.isFinite(place))) return () => undefined;
  return (_row, _column, value) => {
    if (typeof value !== 'number') return undefined;
    switch (scale.type) {
      case 'colors':
        return { fill: colorAt(value, places, scale.colors) };
      case 'bar':
        return { bar: barAt(value, places, scale) };
      case 'icons':
        return { icon: iconAt(value, places, scale) };
    }
  };
}

/** The number at which a threshold stands; NaN where there is none. */
function placeOf({ kind, value }: Threshold, numbers: readonly number[], result: RuleCells['result']): number {
  const least = numbers[0] ?? NaN;
  const most = numbers.at(-1) ?? NaN;
  const given = (): number => Number(firstOf(result(value)));
  switch (kind) {
    case 'min':
      return least;
    case 'max':
      return most;
    case 'autoMin':
      return Math.min(0, least);
    case 'autoMax':
      return Math.max(0, most);
    case 'percent':
      return least + ((most - least) * given()) / 100;
    case 'percentile':
      return percentile(numbers, given() / 100);
    default:
      return given();
  }
}

/** Between two numbers in proportion, as PERCENTILE.INC counts. */
function percentile(numbers: readonly number[], part: number): number {
  const place = (numbers.length - 1) * part;
  const below = numbers[Math.floor(place)] ?? NaN;
  const above = numbers[Math.ceil(place)] ?? NaN;
  return below + (above - below) * (place - Math.floor(place));
}

function colorAt(value: number, places: readonly number[], colors: readonly string[]): string {
  const next = places.findIndex((place) => value <= place);
  if (next <= 0) return colors[next === 0 ? 0 : colors.length - 1]!;
  const [low, high] = [places[next - 1]!, places[next]!];
  return between(colors[next - 1]!, colors[next]!, (value - low) / (high - low));
}

function between(first: string, second: string, part: number): string {
  const mixed = [1, 3, 5].map((at) => {
    const [a, b] = [first, second].map((color) => Number.parseInt(color.slice(at, at + 2), 16)) as [number, number];
    return Math.round(a + (b - a) * part)
      .toString(16)
      .padStart(2, '0');
  });
  return `#${mixed.join('')}`;
}

function barAt(
  value: number,
  [low, high]: readonly number[],
  { color, negativeColor, shortest, longest }: Extract<Scale, { type: 'bar' }>,
): Bar {
  const part = (number: number): number =>
    high! > low! ? Math.min(1, Math.max(0, (number - low!) / (high! - low!))) : number >= high! ? 1 : 0;
  const length = (number: number): number => (shortest + (longest - shortest) * part(number)) / 100;
  // Where the scale holds negative numbers that have a colour of their own, bars start at 0.
  const zero = negativeColor !== undefined && low! < 0 ? part(0) : 0;
  if (zero === 0) return { from: 0, to: length(value), color };
  const end = part(value);
  return { from: Math.min(zero, end), to: Math.max(zero, end), color: value < 0 ? negativeColor! : color };
}

/** From the worst to the best. */
const ICON_COLORS = ['#c62828', '#b45309', '#a16207', '#4d7c0f', '#2e7d32'];

function iconAt(
  value: number,
  places: readonly number[],
  { thresholds, isReversed, isArrow }: Extract<Scale, { type: 'icons' }>,
): Icon {
  const last = places.length - 1;
  const reached = places.findLastIndex(
    (place, index) => index === 0 || (thresholds[index]!.includes ? value >= place : value > place),
  );
  const rank = isReversed ? last - reached : reached;
  const color = ICON_COLORS[Math.round((rank / Math.max(1, last)) * (ICON_COLORS.length - 1))]!;
  if (!isArrow) return { sign: '●', color };
  return { sign: rank === last ? '▲' : rank === 0 ? '▼' : '▶', color };
}
