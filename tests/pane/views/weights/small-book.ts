/** A short parts list with formulas, a price list and a budget, invented. Values are those that its formulas give. */
import { PRICE_COLUMNS } from '../../../../src/core/price';
import type { Cell, CellModel, WorkbookModel } from '../../../../src/sheet';
import { recalculateCopy } from '../../../../src/calculation/recalculate-copy';

const HEADER = [
  'Component',
  'Part',
  'Qty',
  'Thickness (in)',
  'Flat area (in²)',
  'Weight (lb)',
  'Arm (in)',
  'Status',
  'Price item',
  'Use',
  'Cost',
  'Material',
  'Weighed (lb)',
  'Each (lb)',
];

const value = (cell: Cell): CellModel => ({ value: cell });
const formula = (text: string): CellModel => ({ value: null, formula: text });
const PRICES = [
  ['sheet .025', 'sheet', 'sheet', '48 x 144', 40, 'USD'],
  ['sheet .032', 'sheet', 'sheet', '48 x 144', 50, 'USD'],
];

export interface SmallBookOptions {
  /** False: no sheet Budget. */
  readonly budget?: boolean;
}

export function smallBook({ budget = true }: SmallBookOptions = {}): WorkbookModel {
  const cost = (row: number): CellModel => formula(`TARE.PRICE.COST(I${row},J${row},Prices!A1:F3)`);
  const priceColumns = PRICE_COLUMNS.slice(0, 6).map(({ label }) => label);
  const keyed = (row: readonly Cell[]): CellModel[] => {
    const places = ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency'];
    return priceColumns.map((header) => value(row[places.indexOf(header)] ?? null));
  };
  const model: WorkbookModel = {
    styles: [],
    names: [{ name: 'SkinGauge', refersTo: 'Design!$B$1' }],
    sheets: [
      {
        name: 'Parts',
        cells: [
          HEADER.map(value),
          [
            value('Spar'),
            value('Angle'),
            value(1),
            value(0.025),
            formula('10*TARE.FLAT.ANGLE(1,1,D2,0.125)'),
            formula('E2*D2*0.1'),
            value(40),
            value('laid out'),
          ],
          [
            value('Spar'),
            value('Web'),
            value(1),
            value(0.025),
            value(96),
            formula('E3*D3*0.1'),
            value(40),
            value('released'),
            value('sheet .025'),
            formula('E3'),
            cost(3),
          ],
          [
            value('Skin'),
            value('Upper'),
            value(2),
            formula('SkinGauge'),
            value(1000),
            formula('C4*E4*D4*0.1'),
            value(60),
            value('estimated'),
          ],
          [
            value('Spar'),
            value('Bolts'),
            value(4),
            value(null),
            value(null),
            value(0.4),
            value(41),
            value('existing'),
            value(null),
            value(null),
            value(null),
            value(null),
            value(null),
            value(0.1),
          ],
          [
            value('Skin'),
            value('Strap'),
            value(1),
            formula('SkinGauge'),
            value(50),
            value(0.11),
            value(60),
            value('weighed'),
            value(null),
            value(null),
            value(null),
            value('2024-T3'),
            value(0.11),
          ],
        ],
        tables: [],
      },
      { name: 'Design', cells: [[value('Skin gauge'), value(0.02)]], tables: [] },
      {
        name: 'Prices',
        cells: [priceColumns.map(value), ...PRICES.map(keyed)],
        tables: [
          { name: 'Prices', range: { sheet: 'Prices', row: 0, column: 0, rows: 3, columns: 6 }, columns: priceColumns },
        ],
      },
      ...(budget
        ? [
            {
              name: 'Budget',
              cells: [
                ['Component', 'Budget (lb)'],
                ['Spar', 1],
                ['Skin', 5],
              ].map((row) => row.map(value)),
              tables: [],
            },
          ]
        : []),
    ],
  };
  return recalculateCopy(model).model;
}
