export { Calculator, type Calculation, type Computed, type Progress, type UnknownFormula } from './calculate';
