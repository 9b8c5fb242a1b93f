export {
  DIMENSIONS,
  UNIT_SYSTEMS,
  fromInch,
  toInch,
  unitSign,
  unitWords,
  type Dimension,
  type UnitSystem,
} from './units';
export {
  fromUnit,
  inUnit,
  labelDimension,
  labelIn,
  labelUnit,
  plainLabel,
  readUnit,
  unitIn,
  unitsOf,
  type Unit,
} from './label-unit';
export {
  decimalNumber,
  hasDecimalComma,
  isGrouped,
  leadingNumber,
  plainNumber,
  typedNumber,
  withDot,
  type Decimals,
  type TypedNumber,
} from './number-text';
export { quantities, telling, writeEnglish, type Quantities, type WriteNumber } from './quantities';
