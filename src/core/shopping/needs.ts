/** What a project takes of each item: the parts' use, the joints' rivets and the hardware, gathered by item. */
import { rivet, rivetWeight, type OwnRivets } from '../fastener';
import { InputError } from '../input-error';
import { distinctNames, nameKey } from '../names';
import type { Measure, PriceBook } from '../price';
import { fromUnit, type Unit } from '../quantity';

export interface PartUse {
  readonly component: string;
  readonly item: string;
  /** Of the item for all pieces, in its unit of use. */
  readonly use: number | undefined;
  /** What `use` is in, by what the item is used by; in², in and lb where it is left out. */
  readonly useUnits?: Readonly<Partial<Record<Measure, Unit>>> | undefined;
}

export interface JointUse {
  readonly component: string;
  /** Designation. */
  readonly rivet: string;
  readonly count: number;
}

/** Hardware of its own sheet: pieces of an item. */
interface PieceUse {
  readonly component: string;
  readonly item: string;
  readonly count: number;
  /** lb of one, for what is sold by weight. */
  readonly each: number | undefined;
}

export interface Need {
  /** As the price list spells it, where it has it. */
  readonly item: string;
  /** in², in, pieces or lb. */
  readonly quantity: number;
  /** Components that take it. */
  readonly uses: readonly string[];
}

/** Finds the price list's own spelling of an item: a rivet by its designation, whatever series it is named by. */
export function itemNames(book: PriceBook, own?: OwnRivets): (item: string) => string {
  const rivets = new Map<string, string>();
  for (const item of book.items) {
    const name = designationOf(item, own);
    if (name !== undefined && !rivets.has(name)) rivets.set(name, item);
  }
  const spelled = new Map(book.items.map((item) => [nameKey(item), item]));
  return (item) => spelled.get(nameKey(item)) ?? rivets.get(designationOf(item, own) ?? '') ?? item;
}

function designationOf(item: string, own: OwnRivets | undefined): string | undefined {
  try {
    return rivet(item, 'item', own).designation;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return undefined;
  }
}

/** Needs in the order in which they come first. Rows without an item or a use are passed over. */
export function gatherNeeds(
  parts: readonly PartUse[],
  joints: readonly JointUse[],
  book: PriceBook,
  own?: OwnRivets,
  hardware: readonly PieceUse[] = [],
): Need[] {
  const nameOf = itemNames(book, own);
  const needs = new Map<string, { item: string; quantity: number; uses: string[] }>();
  const add = (item: string, quantity: number, component: string): void => {
    if (item.trim() === '' || !(quantity > 0)) return;
    const name = nameOf(item);
    const need = needs.get(nameKey(name)) ?? { item: name, quantity: 0, uses: [] };
    need.quantity += quantity;
    need.uses.push(component);
    needs.set(nameKey(name), need);
  };
  for (const { item, use, useUnits, component } of parts)
    add(item, fromUnit(use ?? 0, useUnits?.[measureOf(nameOf(item), book) ?? 'pieces']), component);
  for (const joint of joints) add(joint.rivet, quantityOf(joint, nameOf(joint.rivet), book, own), joint.component);
  for (const { item, count, each, component } of hardware) {
    const byWeight = each !== undefined && measureOf(nameOf(item), book) === 'weight';
    add(item, byWeight ? count * each : count, component);
  }
  return [...needs.values()].map(({ item, quantity, uses }) => ({ item, quantity, uses: distinctNames(uses) }));
}

/** Undefined for what the price list does not hold: then nobody knows what its use is in. */
function measureOf(item: string, book: PriceBook): Measure | undefined {
  try {
    return book.has(item) ? book.find(item).measure : undefined;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return undefined;
  }
}

/** Pieces, or pounds where the price list's item is used by weight. */
function quantityOf(
  { rivet: name, count }: JointUse,
  item: string,
  book: PriceBook,
  own: OwnRivets | undefined,
): number {
  try {
    return measureOf(item, book) === 'weight' ? count * rivetWeight(rivet(name, 'rivet', own), 'bought') : count;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return count;
  }
}
