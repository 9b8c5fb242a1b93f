export {
  DIMENSIONS,
  UNIT_SYSTEMS,
  fromInch,
  toInch,
  unitSign,
  unitWords,
  plainNumber,
  type Dimension,
  type UnitSystem,
} from '../../core/quantity';
export {
  block,
  choice,
  custom,
  flag,
  integer,
  number,
  numbers,
  optional,
  rows,
  text,
  texts,
  type Limits,
  type Lookalike,
  type Parameter,
} from './parameter';
export {
  FAMILIES,
  defineRowWise,
  defineWhole,
  unitsParameter,
  unitsPlace,
  exampleFormula,
  signature,
  type Definition,
  type Example,
  type Family,
  type ResultShape,
} from './definition';
export { NAMESPACE } from '../../sheet/formula/namespace';
export { call } from './call';
export { asCellError } from './lift';
