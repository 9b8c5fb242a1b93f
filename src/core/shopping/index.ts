export {
  DEFAULT_SPARES,
  HARDWARE,
  gatherNeeds,
  itemNames,
  type Hardware,
  type JointUse,
  type Need,
  type PartUse,
  type PlannedItem,
  type PlannedStock,
} from './needs';
export { ownMoney, type OwnMoney, type Rate, type SupplierTerms } from './choose';
export {
  shoppingList,
  type Bought,
  type OnHand,
  type OtherUse,
  type PlannedLine,
  type ShoppingLine,
  type ShoppingList,
  type ShoppingTerms,
  type SupplierOrder,
} from './list';
