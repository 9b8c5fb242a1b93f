/** Tools that an option takes, bought whole. */
import { extend } from '../price';
import type { Rivet } from '../fastener';

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
  (tool.for === 'all' || tool.for === rivet.kind) &&
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
