export { Calculator, type Progress, type UnknownFormula } from './calculate';
