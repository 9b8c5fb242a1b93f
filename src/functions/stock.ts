/** Stock: how many bars or sheets of one size the pieces need, with a proven lower bound. */
import { InputError, refuse } from '../core/input-error';
import { quickBars, quickSheets, type QuickPart } from '../core/stock/quick';
import { choice, defineWhole, numbers, optional, type Definition } from './define';
import { checkLength, length, lengthOrZero } from './parameters';

const family = 'Stock';
/** Pieces of all kinds together that a sheet plans at once: beyond it the pane or the command line is the place. */
const MOST_PIECES = 20_000;
const MOST_KINDS = 400;

const LENGTHS = { dimension: 'length', limits: { above: 0, max: 12_000 } } as const;
const quantities = numbers('quantities', {
  help: 'pieces of each, in as many cells as lengths',
  of: 'pieces',
  limits: { min: 0, max: 1e5 },
});
const kerf = optional(lengthOrZero('kerf', 'what a cut takes away: a saw some hundredths, a shear 0'), 0);
const result = {
  kind: 'table',
  columns: [{ name: 'stock needed' }, { name: 'lower bound' }, { name: 'use %' }],
  help: 'one row: how many are needed, how many are needed at least, and how much of them the pieces are',
} as const;
const FULL_PLAN =
  'A quick plan of one size: where stock needed is above the lower bound, the full plan of the pane or of "tarebook cut" may need fewer';

export const stock: readonly Definition[] = [
  defineWhole({
    name: 'STOCK.BARS',
    family,
    summary: 'Bars of one length that pieces are cut from, with a proven lower bound and the use of the material.',
    parameters: [
      numbers('lengths', { ...LENGTHS, help: 'length of each kind of piece' }),
      quantities,
      length('stock_length', 'length of a bar'),
      kerf,
    ],
    result,
    formula:
      'pieces longest first, each where it fits tightest; or bar by bar as full as can be: the better of the two',
    source:
      'bound: Fekete and Schepers, New classes of fast lower bounds for bin packing problems, Mathematical Programming 91 (2001)',
    limits: [FULL_PLAN, 'Leftovers, several lengths and their prices are in the full plan'],
    examples: [
      {
        args: [[[96], [71.5], [2]], [[4], [9], [30]], 144, 0.1],
        gives: [[9, 9, (100 * (4 * 96 + 9 * 71.5 + 60)) / (9 * 144)]],
      },
      { args: [[[50], [50]], [[2], [1]], 100], gives: [[2, 2, 75]] },
    ],
    compute(lengths, counts, stockLength, cut) {
      const pieces = pair(lengths, counts);
      for (const { row, value } of pieces)
        if (value > stockLength + 1e-9)
          throw new InputError(`lengths, row ${row}`, value, `up to the stock_length, ${stockLength}`);
      if (pieces.length === 0) return [[0, 0, 0]];
      const { needed, lowerBound, usePercent } = quickBars(
        pieces.map(({ value }) => value),
        pieces.map(({ quantity }) => quantity),
        stockLength,
        cut,
      );
      return [[needed, lowerBound, usePercent]];
    },
  }),
  defineWhole({
    name: 'STOCK.SHEETS',
    family,
    summary:
      'Sheets of one size that parts are cut from in strips, with a proven lower bound and the use of the material.',
    parameters: [
      numbers('lengths', { ...LENGTHS, help: 'length of each kind of part' }),
      numbers('widths', { ...LENGTHS, help: 'width of each, in as many cells as lengths' }),
      quantities,
      length('sheet_length', 'length of a sheet: the strips run along it, and the grain'),
      length('sheet_width', 'width of a sheet'),
      kerf,
      optional(
        choice('grain', {
          help: '"any" (the default): parts may be turned; "along": their length lies along the sheet; "across": across it',
          choices: ['any', 'along', 'across'],
        }),
        'any',
      ),
    ],
    result,
    formula:
      'strips across the whole sheet, the widest part first; the strips laid in sheets as bars are; the best of four orders',
    source: 'bound: Fekete and Schepers, as STOCK.BARS, in both directions; it holds for any way of cutting',
    limits: [
      FULL_PLAN,
      'Leftovers, several sizes and their prices are in the full plan',
      'Parts are taken as rectangles',
    ],
    examples: [
      {
        args: [[[60], [14.25]], [[24], [6.5]], [[2], [10]], 144, 48, 0.0625],
        gives: [[1, 1, (100 * (2 * 60 * 24 + 10 * 14.25 * 6.5)) / (144 * 48)]],
        within: 1e-6,
      },
      { args: [[[30]], [[20]], [[4]], 60, 40, 0, 'along'], gives: [[1, 1, 100]] },
      {
        args: [[[30]], [[20]], [[4]], 60, 40, 0, 'across'],
        gives: [[2, 2, 50]],
        note: 'one strip of 30 a sheet, with three parts of which two are needed',
      },
    ],
    compute(lengths, widths, counts, sheetLength, sheetWidth, cut, grain) {
      checkLength('widths', widths, 'lengths', lengths.length);
      const parts = pair(lengths, counts).map(({ row, value, quantity }): QuickPart & { row: number } => {
        const width = widths[row - 1] ?? refuse(`widths, row ${row}`, null, 'a width above 0');
        return { row, length: value, width, quantity };
      });
      for (const part of parts) checkFits(part, sheetLength, sheetWidth, grain);
      if (parts.length === 0) return [[0, 0, 0]];
      const { needed, lowerBound, usePercent } = quickSheets(parts, sheetLength, sheetWidth, cut, grain);
      return [[needed, lowerBound, usePercent]];
    },
  }),
];

interface Piece {
  readonly row: number;
  readonly value: number;
  readonly quantity: number;
}

/** Rows with both a length and a quantity; blank rows and those with 0 pieces are passed over. */
function pair(lengths: readonly (number | null)[], counts: readonly (number | null)[]): Piece[] {
  checkLength('quantities', counts, 'lengths', lengths.length);
  const pieces = lengths.flatMap((value, index): Piece[] => {
    const quantity = counts[index] ?? null;
    if (value === null && quantity === null) return [];
    if (value === null) throw new InputError(`lengths, row ${index + 1}`, null, 'a length above 0');
    return quantity === null || quantity === 0 ? [] : [{ row: index + 1, value, quantity: whole(quantity, index + 1) }];
  });
  if (pieces.length > MOST_KINDS)
    throw new InputError(
      'lengths',
      lengths.map((value) => [value]),
      `${MOST_KINDS} kinds of piece at most; the pane and "tarebook cut" take more`,
    );
  const total = pieces.reduce((sum, { quantity }) => sum + quantity, 0);
  if (total > MOST_PIECES)
    throw new InputError(
      'quantities',
      total,
      `${MOST_PIECES} pieces at most in all; the pane and "tarebook cut" take more`,
    );
  return pieces;
}

const whole = (quantity: number, row: number): number =>
  Number.isInteger(quantity) ? quantity : refuse(`quantities, row ${row}`, quantity, 'a whole number of pieces');

function checkFits(
  { row, length: long, width }: QuickPart & { row: number },
  sheetLength: number,
  sheetWidth: number,
  grain: string,
): void {
  const straight = long <= sheetLength + 1e-9 && width <= sheetWidth + 1e-9;
  const turned = width <= sheetLength + 1e-9 && long <= sheetWidth + 1e-9;
  if ((grain !== 'across' && straight) || (grain !== 'along' && turned)) return;
  const guess =
    straight || turned ? `With the grain "${straight ? 'along' : 'across'}" or "any" it would fit` : undefined;
  throw new InputError(
    `lengths, row ${row}`,
    `${long} × ${width}`,
    `a part that fits a sheet of ${sheetLength} × ${sheetWidth}`,
    guess,
  );
}
