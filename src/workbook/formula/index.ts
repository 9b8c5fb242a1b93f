export { needsArray } from './needs-array';
export { parseFormula } from './parse';
export { FormulaError, LAST_COLUMN, LAST_ROW, type BinaryOperator, type Coordinate, type FormulaNode, type ReferenceNode } from './syntax';
