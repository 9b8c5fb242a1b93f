export { DEFAULT_SPARES, HARDWARE, type Hardware } from './hardware';
export { gatherNeeds, itemNames, type JointUse, type Need, type PartUse } from './needs';
export { ownMoney, type OwnMoney, type Rate } from './own-money';
export type { PlannedItem, PlannedStock } from './planned';
export { shoppingList } from './list';
export type {
  Bought,
  OnHand,
  OtherUse,
  PlannedLine,
  ShoppingLine,
  ShoppingList,
  ShoppingTerms,
  SupplierOrder,
  SupplierTerms,
} from './types';
