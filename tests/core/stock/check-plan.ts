/**
 * Checks a plan from nothing but the plan, the parts and the stock, by geometry of its own: it shares no
 * code with the planner. Throws with the first fault.
 */
import { expect } from 'vitest';
import type { BarPart, BarPlan, BarStock, SheetPart, SheetPlan, SheetStock } from '../../../src/core/stock';

const TINY = 1e-6;

function checkCounts(parts: readonly BarPart[], made: ReadonlyMap<string, number>, plan: BarPlan | SheetPlan): void {
  const wanted = new Map<string, number>();
  for (const { name, quantity } of parts) wanted.set(name, (wanted.get(name) ?? 0) + quantity);
  const missing = new Map(plan.missing.map(({ part, quantity }) => [part, quantity]));
  const scrap = new Map(plan.fromScrap.map(({ part, quantity }) => [part, quantity]));
  for (const [name, quantity] of wanted)
    expect((made.get(name) ?? 0) + (missing.get(name) ?? 0) + (scrap.get(name) ?? 0), `pieces of ${name}`).toBe(
      quantity,
    );
  for (const name of made.keys()) expect(wanted.has(name), `part ${name} is asked for`).toBe(true);
}

function checkStockUse(stock: readonly (BarStock & { width?: number })[], plan: BarPlan | SheetPlan): void {
  const costed = stock.some(({ cost = 0, offcut }) => cost > 0 && !offcut);
  let cost = 0;
  for (const item of stock) {
    const used = plan.patterns
      .filter((pattern) => pattern.stock === item.name)
      .reduce((sum, { times }) => sum + times, 0);
    const available = item.available ?? (item.offcut ? 1 : Infinity);
    expect(used, `${item.name} used`).toBeLessThanOrEqual(available);
    expect(plan.stockUsed.find(({ name }) => name === item.name)?.used ?? 0, `${item.name} counted`).toBe(used);
    cost += used * (item.offcut ? 0 : costed ? item.cost! : item.length * (item.width ?? 1));
  }
  expect(plan.cost).toBeCloseTo(cost, 6);
  expect(plan.lowerBound).toBeLessThanOrEqual(plan.cost + TINY);
  if (plan.lowerBound > 0) expect(plan.gap).toBeCloseTo((plan.cost - plan.lowerBound) / plan.lowerBound, 6);
  if (plan.status === 'optimal') expect(plan.cost).toBeLessThanOrEqual(plan.lowerBound * (1 + 1e-5) + TINY);
  if (plan.missing.length > 0) expect(plan.status).toBe('short');
}

export function checkBarPlan(parts: readonly BarPart[], stock: readonly BarStock[], plan: BarPlan): void {
  const made = new Map<string, number>();
  for (const { stock: name, length, times, cuts, left } of plan.patterns) {
    const item = stock.find((one) => one.name === name)!;
    expect(length).toBe(item.length);
    expect(times).toBeGreaterThanOrEqual(1);
    let end = -plan.kerf;
    for (const cut of cuts) {
      // The blade passes between a piece and the one before it.
      expect(cut.from, `start of ${cut.part}`).toBeGreaterThanOrEqual(end + plan.kerf - TINY);
      expect(parts.find((part) => part.name === cut.part)!.length).toBeCloseTo(cut.length, 9);
      end = cut.from + cut.length;
      made.set(cut.part, (made.get(cut.part) ?? 0) + times);
    }
    expect(end).toBeLessThanOrEqual(item.length + TINY);
    expect(left).toBeCloseTo(Math.max(0, item.length - end - plan.kerf), 6);
  }
  checkCounts(parts, made, plan);
  checkStockUse(stock, plan);
}

interface Box {
  readonly what: string;
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
}

/** Two boxes of which neither lies a cut apart from the other. */
const tooNear = (a: Box, b: Box, kerf: number): boolean =>
  a.x < b.x + b.dx + kerf - TINY &&
  b.x < a.x + a.dx + kerf - TINY &&
  a.y < b.y + b.dy + kerf - TINY &&
  b.y < a.y + a.dy + kerf - TINY;

// eslint-disable-next-line complexity -- one rule of a plan after the other
export function checkSheetPlan(parts: readonly SheetPart[], stock: readonly SheetStock[], plan: SheetPlan): void {
  const made = new Map<string, number>();
  for (const pattern of plan.patterns) {
    const sheet = stock.find(({ name }) => name === pattern.stock)!;
    expect([pattern.length, pattern.width]).toEqual([sheet.length, sheet.width]);
    const across = pattern.direction === 'across';
    const [long, wide] = across ? [sheet.width, sheet.length] : [sheet.length, sheet.width];
    const boxes: Box[] = [];
    let stripEnd = -plan.kerf;
    for (const strip of pattern.strips) {
      // First cuts: whole strips, one after the other, within the sheet.
      expect(strip.from, 'start of a strip').toBeGreaterThanOrEqual(stripEnd + plan.kerf - TINY);
      stripEnd = strip.from + strip.width;
      expect(stripEnd, 'end of a strip').toBeLessThanOrEqual(wide + TINY);
      let end = -plan.kerf;
      for (const piece of strip.pieces) {
        expect(piece.from, `start of ${piece.part}`).toBeGreaterThanOrEqual(end + plan.kerf - TINY);
        end = piece.from + piece.length;
        expect(end, `end of ${piece.part}`).toBeLessThanOrEqual(long + TINY);
        expect(piece.width, `width of ${piece.part} in its strip`).toBeLessThanOrEqual(strip.width + TINY);
        const part = parts.find(({ name }) => name === piece.part)!;
        const [own, other] = piece.turned ? [piece.width, piece.length] : [piece.length, piece.width];
        expect([own, other]).toEqual([part.length, part.width]);
        const alongSheet = piece.turned === across;
        if (part.length !== part.width && part.lie !== 'any')
          expect(alongSheet, `${part.name} lies ${part.lie ?? 'along'}`).toBe((part.lie ?? 'along') === 'along');
        made.set(piece.part, (made.get(piece.part) ?? 0) + pattern.times);
        boxes.push({ what: piece.part, x: piece.from, y: strip.from, dx: piece.length, dy: piece.width });
      }
    }
    for (const [index, box] of boxes.entries()) {
      for (const other of boxes.slice(index + 1)) {
        // Pieces of one strip are apart along it, pieces of two strips across it: one of the two must hold.
        expect(tooNear(box, other, plan.kerf), `${box.what} and ${other.what} are a cut apart`).toBe(false);
      }
    }
    for (const { x, y, length, width } of pattern.leftovers) {
      const [lx, ly, ldx, ldy] = across ? [y, x, width, length] : [x, y, length, width];
      const rest: Box = { what: 'leftover', x: lx, y: ly, dx: ldx, dy: ldy };
      for (const box of boxes) expect(tooNear(box, rest, 0), `${box.what} and a leftover`).toBe(false);
      expect(x + length).toBeLessThanOrEqual(sheet.length + TINY);
      expect(y + width).toBeLessThanOrEqual(sheet.width + TINY);
    }
  }
  checkCounts(parts, made, plan);
  checkStockUse(stock, plan);
}
