/** Tools that an option takes, bought whole. */
import { InputError } from '../input-error';
import { extend } from '../price';
import { toInch, type UnitSystem } from '../quantity';
import { placesOf, type TableCells } from '../table';
import { sortOf, type Rivet } from '../fastener';

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
export function toolsFor(
  tools: readonly Tool[],
  rivets: readonly { readonly rivet: Rivet; readonly count: number }[],
  currency: string,
): ToolNeed[] {
  return tools.flatMap((tool) => {
    const count = rivets.reduce((sum, one) => sum + (serves(tool, one.rivet) ? one.count : 0), 0);
    if (count === 0) return [];
    const worn = tool.life === undefined ? 1 : Math.max(1, Math.ceil(count / tool.life - 1e-9));
    const bought = worn - (tool.owned ? 1 : 0);
    return [{ tool, rivets: count, bought, cost: extend(tool.price, bought, currency) }];
  });
}

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
    const serves = (['solid', 'blind', 'all'] as const).find((one) => one === String(row[use]).trim().toLowerCase());
    if (!serves) throw new InputError(`tools, row ${index + 2}`, row[use], 'solid, blind or all under For');
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
