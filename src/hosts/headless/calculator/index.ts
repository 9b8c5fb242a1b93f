export { Calculator, type Calculation, type Progress, type UnknownFormula } from './calculate';
export { parseFormula } from './parse';
export { FormulaError } from './syntax';
