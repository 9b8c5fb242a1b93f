/** What the rivets and the tools of an option cost. */
import { gathered, naturalOrder } from '../names';
import { piecesPerPound, rivetsAmong, rivetWeight, sortOf, type OwnRivets, type Rivet } from '../fastener';
import { InputError, unlessRefused, refuse } from '../input-error';
import { openPriceBook, purchase, sumMoney, extend, type PriceBook, type PricedItem, type Purchase } from '../price';
import { toInch, type UnitSystem } from '../quantity';
import { placesOf, type TableCells } from '../table';

// What an option's rivets cost at the counter: whole pounds, hundreds and packs, breaks used.

export interface LengthNeed {
  readonly rivet: Rivet;
  readonly count: number;
  /** Undefined where the price list cannot say. */
  readonly purchase: Purchase | undefined;
  readonly currency: string;
  /** Why there is no price. */
  readonly problem: InputError | undefined;
}

export interface Material {
  /** By designation: shortest of the slimmest first. */
  readonly lengths: readonly LengthNeed[];
  /** Undefined where a price is missing. */
  readonly cost: number | undefined;
  readonly currency: string;
  /** A message for each length without a price. */
  readonly missing: readonly string[];
}

/** Prices by a rivet's one spelling, whatever name the list gives it (AN470 for MS20470). */
export type RivetPrices = (rivet: Rivet) => PricedItem;

export function rivetPrices(book: PriceBook, own?: OwnRivets): RivetPrices {
  const names = rivetsAmong(book.items, own);
  return ({ designation }) => book.find(names.get(designation) ?? designation);
}

/** A price list in which own rivets that are sold by weight count the pieces of their own weight. */
export const bookWithRivets = (book: PriceBook, own: OwnRivets | undefined): PriceBook =>
  own ? openPriceBook(book.list, (item) => piecesPerPound(item, own)) : book;

/** The rivets of an option bought once for all joints. */
export function buyRivets(
  needs: readonly { readonly rivet: Rivet; readonly count: number }[],
  prices: RivetPrices,
): Material {
  const byName = gathered(
    needs.filter(({ count }) => count > 0),
    ({ rivet }) => rivet.designation,
  );
  const lengths = [...byName.values()]
    .map((alike) => ({ rivet: alike[0]!.rivet, count: alike.reduce((sum, { count }) => sum + count, 0) }))
    .sort((a, b) => naturalOrder(a.rivet.designation, b.rivet.designation))
    .map(({ rivet, count }) => buy(rivet, count, prices));
  const currencies = [...new Set(lengths.filter((one) => one.purchase).map((one) => one.currency))];
  const named = currencies.map((code) => code || 'no currency').join(' and ');
  const missing = [
    ...lengths.flatMap(({ problem }) => (problem ? [problem.message] : [])),
    ...(currencies.length > 1 ? [`prices: got ${named}; takes one currency for the rivets of an option`] : []),
  ];
  const currency = currencies[0] ?? '';
  const cost =
    missing.length > 0
      ? undefined
      : sumMoney(
          lengths.map((one) => one.purchase!.cost),
          currency,
        );
  return { lengths, cost, currency, missing };
}

const buy = (rivet: Rivet, count: number, prices: RivetPrices): LengthNeed =>
  unlessRefused(
    () => {
      const item = prices(rivet);
      const amount =
        item.measure === 'pieces'
          ? count
          : item.measure === 'weight'
            ? count * rivetWeight(rivet, 'bought')
            : refuse('item', item.item, 'a price by the piece or by weight: its Kind is "rivet"');
      return { rivet, count, purchase: purchase(item, amount), currency: item.currency, problem: undefined };
    },
    (problem) => ({ rivet, count, purchase: undefined, currency: '', problem }),
  );

// Tools that an option takes, bought whole.

export interface Tool {
  readonly name: string;
  readonly for: 'solid' | 'blind' | 'all';
  /** Inches: for rivets of this diameter only. */
  readonly diameter?: number;
  readonly price: number;
  /** Rivets that one lasts; undefined: all of them. */
  readonly life?: number;
  /** Already in the shop: the first one costs nothing. */
  readonly owned: boolean;
}

export interface ToolNeed {
  readonly tool: Tool;
  /** Rivets that it sets. */
  readonly rivets: number;
  readonly bought: number;
  readonly cost: number;
}

const serves = (tool: Tool, rivet: Rivet): boolean =>
  (tool.for === 'all' || tool.for === sortOf(rivet)) &&
  (tool.diameter === undefined || Math.abs(tool.diameter - rivet.nominal) < 0.004);

/** The tools that at least one rivet of the list takes. */
export const toolsFor = (
  tools: readonly Tool[],
  rivets: readonly { readonly rivet: Rivet; readonly count: number }[],
  currency: string,
): ToolNeed[] =>
  tools.flatMap((tool) => {
    const count = rivets.reduce((sum, one) => sum + (serves(tool, one.rivet) ? one.count : 0), 0);
    if (count === 0) return [];
    const worn = tool.life === undefined ? 1 : Math.max(1, Math.ceil(count / tool.life - 1e-9));
    const bought = worn - (tool.owned ? 1 : 0);
    return [{ tool, rivets: count, bought, cost: extend(tool.price, bought, currency) }];
  });

const TOOL_COLUMNS = (['Tool', 'For', 'Tool price', 'Size', 'Life', 'Owned'] as const).map((label) => ({
  key: label,
  label,
}));

/**
 * Tools from cells with a header row: Tool, For, Tool price, and where needed Size, Life and Owned; as the sheet Rivet
 * options has them. Rows without a price are passed over.
 */
export function readTools(cells: TableCells, units: UnitSystem): Tool[] {
  const places = placesOf(TOOL_COLUMNS, cells[0] ?? []);
  const [name, use, price, size, life, owned] = TOOL_COLUMNS.map(({ key }) => places.get(key) ?? -1) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  if (use < 0 || price < 0) throw new InputError('tools', cells, TAKES);
  return cells.slice(1).flatMap((row, index): Tool[] => {
    if (typeof row[price] !== 'number') return [];
    const serves =
      (['solid', 'blind', 'all'] as const).find((one) => one === String(row[use]).trim().toLowerCase()) ??
      refuse(`tools, row ${index + 2}`, row[use], 'solid, blind or all under For');
    return [
      {
        name: String(row[name] ?? ''),
        for: serves,
        price: row[price],
        owned: /^(?:yes|y|true|x)$/i.test(String(row[owned] ?? '')),
        ...(typeof row[size] === 'number' && row[size] > 0 ? { diameter: toInch(row[size], 'length', units) } : {}),
        ...(typeof row[life] === 'number' && row[life] > 0 ? { life: row[life] } : {}),
      },
    ];
  });
}

const TAKES = 'the list of tools with its header row: Tool, For, Tool price, Size, Life, Owned';
