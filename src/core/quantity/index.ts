export { DIMENSIONS, UNIT_SYSTEMS, fromInch, toInch, unitSign, unitWords, type Dimension, type UnitSystem } from './units';
export { labelUnit, plainLabel, readUnit, unitsOf, type Unit } from './label-unit';
export { quantities, writeEnglish, type Quantities, type WriteNumber } from './quantities';
