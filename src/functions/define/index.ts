export {
  DIMENSIONS,
  UNIT_SYSTEMS,
  fromInch,
  toInch,
  unitSign,
  unitWords,
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
  NAMESPACE,
  defineRowWise,
  defineWhole,
  unitsParameter,
  unitsPlace,
  type Definition,
  type Example,
  type Family,
  type ResultShape,
} from './definition';
export { call } from './call';
export { asCellError } from './values';
export { exampleFormula, signature } from './signature';
export { plainNumber } from '../../core/quantity';
