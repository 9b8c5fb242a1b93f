export { Calculator, type Calculation, type Progress, type UnknownFormula } from './calculate';
