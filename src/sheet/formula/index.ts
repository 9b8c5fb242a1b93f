export { numberLiteral, textLiteral } from './literals';
export { needsArray } from './needs-array';
export { parseFormula, tryFormula } from './parse';
export { pieces, type Piece } from './pieces';
export { moved, onSheet, relocked } from './references';
export { partRange, tablePart, type TablePart } from './table-part';
export {
  FormulaError,
  LAST_COLUMN,
  LAST_ROW,
  type BinaryOperator,
  type Coordinate,
  type FormulaNode,
  type ReferenceNode,
} from './syntax';
