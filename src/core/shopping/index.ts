export { DEFAULT_SPARES, HARDWARE, type Hardware } from './hardware';
export { gatherNeeds, type JointUse, type Need, type PartUse } from './needs';
export { ownMoney, type OwnMoney, type Rate } from './own-money';
export { shoppingList } from './list';
export type { Bought, OnHand, OtherUse, ShoppingLine, ShoppingList, ShoppingTerms, SupplierOrder, SupplierTerms } from './types';
