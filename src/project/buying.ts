/** Reading the purchases, the terms of buying, and the stock on the shelf. */
import {
  DEFAULT_SPARES,
  HARDWARE,
  type Bought,
  type Hardware,
  type Rate,
  type ShoppingTerms,
  type SupplierTerms,
} from '../core/shopping';
import { SALE_UNITS } from '../core/price';
import type { UnitSystem } from '../core/quantity';
import { cellName, textIn, type Cell } from '../sheet';
import {
  BUYING_SHEET,
  CHARGE_LIST,
  CUTTING_FACTS,
  OWN_CURRENCY,
  PURCHASES,
  RATE_LIST,
  SPARES_LIST,
  STOCK,
  type CuttingFact,
  type PurchaseKey,
  type StockSheetKey,
} from './forms';
import { factProblems, factText, findFact, findFacts, type Fact } from './facts';
import { fractionIn, isoDate, kept, type Problem, type SheetValues } from './reading';
import { cuttingSystem, keptInUnits, partsSystem, readerOf, unitsOfProject } from './project-units';
import { numberText, readForm, typedText, type FormRow, type FormSheet, type NumberRule, type RowReader } from './rows';
import { eachRow, factNumber } from './settings';

export interface PurchaseRow extends Bought {
  /** Row on the sheet, from 0. */
  readonly row: number;
  /** "2026-03-31" */
  readonly date: string;
  readonly note: string;
}

export interface PurchasesSheet {
  readonly form: FormSheet<PurchaseKey>;
  readonly purchases: readonly PurchaseRow[];
  readonly problems: readonly Problem[];
}

const MONEY = { min: 0, max: 1e9, takes: 'money, 0 or more' } as const;
const CODE = /^[A-Z]{3}$/;

/** The purchases; undefined where no sheet has their header. */
export const readPurchases = kept((values: SheetValues): PurchasesSheet | undefined => {
  const reader = readerOf(values, PURCHASES);
  if (!reader) return undefined;
  const purchases = reader.sheet.rows.flatMap((row): PurchaseRow[] => {
    const item = textIn(row.cells.item);
    const date = reader.date(row, 'date');
    const paid = reader.needed(row, 'paid', { ...MONEY, takes: 'money, 0 or more; not counted until then' });
    const units = reader.number(row, 'units', { min: 0, max: 1e6, takes: 'sale units, 0 or more' }) ?? 0;
    const currency = textIn(row.cells.currency).toUpperCase();
    if (item === '') reader.problem(row, 'item', 'is blank; takes what was bought');
    if (currency !== '' && !CODE.test(currency))
      reader.problem(row, 'currency', `got "${currency}"; takes three letters, for example USD`);
    return paid === undefined
      ? []
      : [
          {
            row: row.row,
            date: date ?? '',
            supplier: textIn(row.cells.supplier),
            item,
            units,
            soldBy: saleUnit(row, reader),
            paid,
            currency,
            note: textIn(row.cells.note),
          },
        ];
  });
  return { form: reader.sheet, purchases, problems: reader.problems };
});

function saleUnit(row: FormRow<PurchaseKey>, reader: RowReader<PurchaseKey>): string {
  const typed = textIn(row.cells.soldBy).toLowerCase();
  if (typed === '' || SALE_UNITS.some((unit) => unit === typed)) return typed;
  reader.problem(row, 'soldBy', `got "${typed}"; takes ${SALE_UNITS.join(', ')}`);
  return '';
}

/** What cutting plans go by. Lengths in inches. */
export interface CuttingTerms {
  /** What a cut takes away; 0 for a shear. */
  readonly kerf: number;
  /** Leftovers shorter or narrower are waste. */
  readonly keepFrom: number;
  /** Parts with no longer side than this are cut from scrap. */
  readonly scrapBelow: number;
  /** Sheet parts may lie across the grain. */
  readonly turn: boolean;
}

export const USUAL_CUTTING: CuttingTerms = { kerf: 0, keepFrom: 3, scrapBelow: 0, turn: false };

export interface BuyingSheet {
  readonly terms: ShoppingTerms;
  readonly cutting: CuttingTerms;
  /** Places and units of what cutting goes by, as far as the sheet has it. */
  readonly facts: Readonly<Partial<Record<CuttingFact, Fact>>>;
  /** The system that lengths are shown in: the workbook's. */
  readonly units: UnitSystem;
  readonly problems: readonly Problem[];
}

/** Without a sheet of terms: the usual spares, no charges, and the currency of the price list. */
export const usualTerms = (currency: string): ShoppingTerms => ({
  currency,
  rates: [],
  spares: DEFAULT_SPARES,
  suppliers: [],
});

/**
 * The terms of the sheet Buying; undefined where the workbook has none.
 * @param currency of the price list, where the sheet does not say the user's own
 */
export const readBuying = kept(
  (values: SheetValues, currency: string, units: UnitSystem = unitsOfProject(values)): BuyingSheet | undefined => {
    const cells = values(BUYING_SHEET);
    if (!cells) return undefined;
    const facts = findFacts(cells, CUTTING_FACTS, cells.length, cuttingSystem(cells) ?? partsSystem(values));
    const problems: Problem[] = factProblems(BUYING_SHEET, facts);
    const fact = findFact(cells, OWN_CURRENCY);
    const own = factText(fact).toUpperCase();
    if (fact && own !== '' && !CODE.test(own))
      problems.push({
        sheet: BUYING_SHEET,
        cell: cellName(fact.row, fact.column),
        message: `${OWN_CURRENCY}: got "${own}"; takes three letters, for example USD. ${currency || 'None'} is used`,
      });
    return {
      terms: {
        currency: CODE.test(own) ? own : currency,
        spares: { ...DEFAULT_SPARES, ...readSpares(readForm(SPARES_LIST, cells), problems) },
        suppliers: readCharges(readForm(CHARGE_LIST, cells), problems),
        rates: readRates(readForm(RATE_LIST, cells), problems),
      },
      cutting: readCutting(facts, cells, problems),
      facts,
      units,
      problems,
    };
  },
);

function readCutting(
  facts: BuyingSheet['facts'],
  cells: readonly (readonly Cell[])[],
  problems: Problem[],
): CuttingTerms {
  const number = (key: 'kerf' | 'keepFrom' | 'scrapBelow', max: number): number => {
    const said = ({ row, column, value, unit }: Fact): string =>
      `${String(cells[row]![column - 1])}: got ${typedText(value, unit)}; takes ${unit?.words ?? 'a number'} from 0 to ${numberText(max, unit)}. ${numberText(USUAL_CUTTING[key], unit)} is used`;
    return factNumber(BUYING_SHEET, facts[key], { min: 0, max }, said, problems) ?? USUAL_CUTTING[key];
  };
  return {
    kerf: number('kerf', 1),
    keepFrom: number('keepFrom', 100),
    scrapBelow: number('scrapBelow', 24),
    turn: isYes(factText(facts.turn)),
  };
}

function readSpares(
  list: FormSheet<'kind' | 'spares'> | undefined,
  problems: Problem[],
): Partial<Record<Hardware, number>> {
  const spares = eachRow(list, problems, (row, reader): (readonly [Hardware, number])[] => {
    const kind = HARDWARE.find((one) => one === textIn(row.cells.kind).toLowerCase());
    const typed = fractionIn(row.cells.spares);
    const share = typed !== undefined && typed >= 1 ? typed / 100 : typed;
    if (kind === undefined)
      reader.problem(row, 'kind', `got "${textIn(row.cells.kind)}"; takes ${HARDWARE.join(', ')}`);
    else if (share === undefined || share < 0 || share > 1)
      reader.problem(
        row,
        'spares',
        `got ${String(row.cells.spares ?? 'a blank')}; takes per cent from 0% to 100%. ${100 * DEFAULT_SPARES[kind]}% is used`,
      );
    else return [[kind, share]];
    return [];
  });
  return Object.fromEntries(spares);
}

const readCharges = (
  list: FormSheet<'supplier' | 'freight' | 'cutCharge' | 'cuts'> | undefined,
  problems: Problem[],
): SupplierTerms[] =>
  eachRow(list, problems, (row, reader) => [
    {
      supplier: textIn(row.cells.supplier),
      freight: reader.number(row, 'freight', MONEY) ?? 0,
      cutCharge: reader.number(row, 'cutCharge', MONEY) ?? 0,
      cuts: reader.number(row, 'cuts', { min: 0, max: 1e5, takes: 'cuts, 0 or more' }) ?? 0,
    },
  ]);

const readRates = (list: FormSheet<'currency' | 'rate' | 'date'> | undefined, problems: Problem[]): Rate[] =>
  eachRow(list, problems, (row, reader): Rate[] => {
    const currency = textIn(row.cells.currency).toUpperCase();
    const rate = reader.needed(row, 'rate', { above: 0, max: 1e6, takes: 'your own currency for one of it, above 0' });
    if (!CODE.test(currency))
      reader.problem(row, 'currency', `got "${currency}"; takes three letters, for example USD`);
    return rate === undefined || !CODE.test(currency) ? [] : [{ currency, rate, date: isoDate(row.cells.date) ?? '' }];
  });

export interface StockPiece {
  /** Row on the sheet, from 0. */
  readonly row: number;
  readonly name: string;
  readonly material: string;
  /** in */
  readonly thickness: number | undefined;
  /** Along the grain, in. */
  readonly length: number;
  /** Of a sheet, in; undefined for a bar. */
  readonly width: number | undefined;
  /** Undefined: as many as are needed. */
  readonly available: number | undefined;
  readonly offcut: boolean;
  /** Undefined: not priced. */
  readonly cost: number | undefined;
  /** True where it shortens the shopping list. */
  readonly takesOff: boolean;
}

export interface StockSheet {
  readonly form: FormSheet<StockSheetKey>;
  /** The system that the stock is shown in: the workbook's. */
  readonly units: UnitSystem;
  readonly pieces: readonly StockPiece[];
  readonly problems: readonly Problem[];
}

const SIDE: NumberRule = { above: 0, max: 12_000, takes: ({ unit }) => `${unit} above 0` };
const GAUGE: NumberRule = { above: 0, max: 4, takes: ({ unit, number }) => `${unit} above 0: ${number(0.025)}` };
const isYes = (text: string): boolean => /^(?:yes|y|true|x|1)$/i.test(text);

/** The stock; undefined where no sheet has its header. */
export const readStockSheet = keptInUnits((values: SheetValues, units: UnitSystem): StockSheet | undefined => {
  const reader = readerOf(values, STOCK);
  if (!reader) return undefined;
  const pieces = reader.sheet.rows.flatMap((row): StockPiece[] => {
    const { name, material, grain, offcut, off } = row.cells;
    const sides = { length: reader.needed(row, 'length', SIDE), width: reader.number(row, 'width', SIDE) };
    const available = reader.number(row, 'available', { min: 0, max: 1e5, takes: 'pieces, 0 or more' });
    if (available !== undefined && !Number.isInteger(available))
      reader.problem(row, 'available', `got ${available}; takes a whole number of pieces`);
    const thickness = reader.number(row, 'thickness', GAUGE);
    const cost = reader.number(row, 'cost', { min: 0, max: 1e9, takes: 'money, 0 or more' });
    if (sides.length === undefined) return [];
    // A plan takes the grain to run along the length.
    const turned = textIn(grain).toLowerCase() === 'across' && sides.width !== undefined;
    const isOffcut = isYes(textIn(offcut));
    return [
      {
        row: row.row,
        name: textIn(name) || `row ${row.row + 1}`,
        material: textIn(material),
        thickness,
        length: turned ? sides.width! : sides.length,
        width: turned ? sides.length : sides.width,
        available: available === undefined ? (isOffcut ? 1 : undefined) : Math.floor(available),
        offcut: isOffcut,
        cost,
        takesOff: isYes(textIn(off)),
      },
    ];
  });
  // Beside stock with a cost, one without would be taken for free.
  const isPriced = pieces.some(({ cost = 0, offcut }) => cost > 0 && !offcut);
  const silent = new Set(
    pieces.flatMap(({ row, cost, offcut }) => (isPriced && cost === undefined && !offcut ? [row] : [])),
  );
  for (const row of reader.sheet.rows)
    if (silent.has(row.row) && row.cells.cost === undefined)
      reader.problem(row, 'cost', 'is blank: not priced, and left out of cutting plans. Type its cost, or 0 for none');
  return { form: reader.sheet, units, pieces, problems: reader.problems };
});
