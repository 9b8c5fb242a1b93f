/** A shopping list as plain data: what it is asked for and what it says. */
import type { OwnRivets } from '../fastener';
import type { Measure, Purchase } from '../price';
import type { Hardware } from './hardware';
import type { Rate } from './own-money';

/** What has been bought already. */
export interface Bought {
  readonly item: string;
  readonly supplier: string;
  /** Sale units. */
  readonly units: number;
  /** What one of them is: "100", "lb"; '' or left out: as the supplier sells the item. */
  readonly soldBy?: string;
  readonly paid: number;
  /** ISO 4217 code; '' for the own currency. */
  readonly currency: string;
}

/** What is on the shelf and was not bought for this project. */
export interface OnHand {
  readonly item: string;
  /** in², in, pieces or lb. */
  readonly quantity: number;
}

export interface SupplierTerms {
  readonly supplier: string;
  /** For one order, own currency. */
  readonly freight: number;
  /** For one cut at the supplier's, own currency. */
  readonly cutCharge: number;
  readonly cuts: number;
}

export interface ShoppingTerms {
  /** The user's own currency, in which totals are. */
  readonly currency: string;
  readonly rates: readonly Rate[];
  /** Share that is bought beyond the need, by kind of hardware. */
  readonly spares: Readonly<Record<Hardware, number>>;
  readonly suppliers: readonly SupplierTerms[];
  /** The builder's own rivets. */
  readonly own?: OwnRivets;
}

/** How a cutting plan counts a line. */
export interface PlannedLine {
  /** Whole sheets or bars, those included that are bought already. */
  readonly pieces: number;
  /** Of a sheet, in. */
  readonly size: { readonly length: number; readonly width: number } | undefined;
  /** Sheets or bars that area or length and the spares would come to; undefined where the plan takes several sizes, or none. */
  readonly byMeasure: number | undefined;
  /** What is needed beyond the plan's pieces, in the unit of use: rows without a cut size. */
  readonly besides: number;
}

export interface ShoppingLine {
  readonly item: string;
  readonly hardware: Hardware;
  readonly measure: Measure;
  /** What the parts take, in the unit of use; `spares` comes on top of it. */
  readonly needed: number;
  readonly spares: number;
  readonly bought: number;
  readonly onHand: number;
  /** What is left to buy, 0 or more. */
  readonly short: number;
  readonly uses: readonly string[];
  /** Undefined where area, length, pieces or weight say what is bought. */
  readonly planned: PlannedLine | undefined;
  /** Undefined where nothing is left to buy. */
  readonly purchase: Purchase | undefined;
  /** Of the price. */
  readonly currency: string;
  /** In the own currency; undefined where there is no rate for its price. */
  readonly cost: number | undefined;
  /** True where more is bought than the quantity takes because that costs less. */
  readonly moreCostsLess: boolean;
  /** What lies about when everything is built, spares counted in, and what it is worth at the list's price. */
  readonly leftOver: number;
  readonly leftOverValue: number | undefined;
}

export interface SupplierOrder {
  /** '' where the price list names none. */
  readonly supplier: string;
  readonly lines: readonly ShoppingLine[];
  readonly goods: number;
  readonly freight: number;
  readonly cutting: number;
  /** goods + freight + cutting, to the cent. */
  readonly total: number;
}

/** A need that the price list cannot meet. */
export interface OtherUse {
  readonly item: string;
  readonly quantity: number;
  /** "not in the price list. Near to it: …", or what is wrong with its row there. */
  readonly message: string;
}

export interface ShoppingList {
  readonly currency: string;
  /** Dearest first. */
  readonly orders: readonly SupplierOrder[];
  /** Needs that are met already. */
  readonly met: readonly ShoppingLine[];
  /** Purchases of which nobody can tell what one sale unit holds: nothing of them counts as had. */
  readonly unclear: readonly Bought[];
  readonly unpriced: readonly OtherUse[];
  /** Sum of the orders. */
  readonly toBuy: number;
  /** Sum of what was paid. */
  readonly spent: number;
  /** spent + toBuy */
  readonly total: number;
  readonly leftOverValue: number;
  /** Amounts that no total holds, because their currency has no rate. */
  readonly withoutRate: readonly { readonly currency: string; readonly amount: number; readonly what: string }[];
}
