export {
  PRICE_COLUMNS,
  PRICE_KINDS,
  SALE_UNITS,
  priceColumn,
  type PriceColumn,
  pricePlaces,
  type PriceColumnKey,
  type PriceKind,
  type SaleUnit,
} from './columns';
export { SOLD_AS, type Contents, type Measure } from './contents';
export { costText, CostSum, INCOMPLETE, oneAmount, type Cost } from './cost-sum';
export { isoFromSerial, serialFromIso } from './dates';
export { exchange, extend, minorDigits, roundMoney, sumMoney } from './money';
export {
  openPriceBook,
  priceEach,
  purchase,
  valueUsed,
  type Offer,
  type PiecesPerPound,
  type PricedItem,
  type PriceBook,
  type Purchase,
} from './price-book';
export {
  CURRENCY_SIGNS,
  readPriceList,
  validatePriceRow,
  type PriceCell,
  type PriceList,
  type PriceProblem,
  type PriceRow,
  type RawPriceRow,
} from './read-price-list';
