/** The edits that add the sheets of buying: Stock, Purchases, and Buying with the usual spares. */
import { DEFAULT_SPARES, HARDWARE } from '../../core/shopping';
import { inUnit, labelIn, unitIn, type UnitSystem } from '../../core/quantity';
import type { Edit } from '../../sheet';
import {
  BUYING_SHEET,
  CHARGE_LIST,
  CUTTING_FACTS,
  OWN_CURRENCY,
  PURCHASES,
  RATE_LIST,
  SPARES_LIST,
  STOCK,
} from '../forms';
import { USUAL_CUTTING } from '../buying';
import { labelsOf, SheetPlan } from './plan';

const HEADER = 5;
const FIRST = HEADER + 1;
const LAST = FIRST + 60;

/** Columns in which the lists of the sheet Buying begin, with one free column between them. */
export const BUYING_COLUMNS = { spares: 0, charges: 3, rates: 8 } as const;
/** Row of their first entry, from 1. */
export const BUYING_FIRST = 12;
/** Row of the own currency, from 0; what cutting plans go by stands below it. */
const FACTS = 4;

/** @param add false where the sheet is there already and empty */
export const newStockSheet = (add = true, units: UnitSystem = 'in-lb'): Edit[] =>
  new SheetPlan(STOCK.sheet)
    .heading('Stock', [
      'Sheets, bars and leftovers on the shelf, or to be had. A cutting plan spends leftovers first.',
      'Length is the way the grain runs. What you bought for this project is on the sheet Purchases: leave it off here, or it counts twice.',
    ])
    .header(HEADER - 1, labelsOf(STOCK, units))
    .look(`A${FIRST}:K${LAST}`, 'text')
    .formChoices(STOCK, FIRST, LAST)
    .widths([26, 11, 10, 9, 9, 11, 10, 10, 9, 12, 34])
    .edits(add);

export const newPurchasesSheet = (add = true): Edit[] =>
  new SheetPlan(PURCHASES.sheet)
    .heading('Purchases', [
      'One row for each thing bought. Quantity is in sale units: sheets, pounds, hundreds. Sold by says which: 2 sold by 100 are 200.',
      'Paid is all of it, with freight and tax; what no part takes counts as spent too.',
    ])
    .header(HEADER - 1, labelsOf(PURCHASES))
    .look(`A${FIRST}:A${LAST}`, 'date')
    .look(`B${FIRST}:D${LAST}`, 'text')
    .look(`E${FIRST}:E${LAST}`, 'inches')
    .look(`F${FIRST}:H${LAST}`, 'text')
    .widths([12, 24, 24, 10, 11, 10, 34, 10])
    .formChoices(PURCHASES, FIRST, LAST)
    .edits(add);

/** @param currency the user's own, to begin with */
export function newBuyingSheet(currency: string, add = true, units: UnitSystem = 'in-lb'): Edit[] {
  const length = (key: 'kerf' | 'keepFrom' | 'scrapBelow'): [label: string, value: number] => [
    labelIn(CUTTING_FACTS[key], units),
    inUnit(USUAL_CUTTING[key], unitIn('length', units)),
  ];
  const end = BUYING_FIRST + 15;
  return new SheetPlan(BUYING_SHEET)
    .heading('Buying', [
      'How the tab Buying makes the shopping list. Shaded cells are typed.',
      'Spares are common practice without a source: sheet and bar for cutting waste, rivets for those bent, dropped or drilled out.',
    ])
    .row(FACTS, [OWN_CURRENCY, currency, undefined, 'totals are in it'])
    .row(FACTS + 1, [...length('kerf'), undefined, 'what a cut takes away; 0 for a shear'])
    .row(FACTS + 2, [...length('keepFrom'), undefined, 'shorter or narrower leftovers are waste'])
    .row(FACTS + 3, [...length('scrapBelow'), undefined, 'parts with no longer side need no stock of their own'])
    .row(FACTS + 4, [
      CUTTING_FACTS.turn,
      USUAL_CUTTING.turn ? 'yes' : 'no',
      undefined,
      'no: the length of a part lies along the grain, so that bends across its length are across the grain',
    ])
    .look(`B${FACTS + 1}:B${FACTS + 5}`, 'text')
    .choices(`B${FACTS + 5}`, ['yes', 'no'])
    .list(SPARES_LIST, BUYING_COLUMNS.spares, BUYING_FIRST - 1, end)
    .list(CHARGE_LIST, BUYING_COLUMNS.charges, BUYING_FIRST - 1, end)
    .list(RATE_LIST, BUYING_COLUMNS.rates, BUYING_FIRST - 1, end)
    .look(`B${BUYING_FIRST}:B${end}`, 'percent')
    .look(`K${BUYING_FIRST}:K${end}`, 'date')
    .rows(
      BUYING_FIRST - 1,
      HARDWARE.map((kind) => [kind, DEFAULT_SPARES[kind]]),
    )
    .widths([25, 11, 3, 26, 10, 11, 8, 3, 15, 10, 12])
    .edits(add);
}
