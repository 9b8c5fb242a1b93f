export { references, type FoundReference } from './found-references';
export { numberLiteral, textLiteral } from './literals';
export { moveReferences, type CellsMove, type LineEdit } from './move-references';
export { needsArray } from './needs-array';
export { parseFormula, tryFormula } from './parse';
export { pieces, type Piece } from './pieces';
export { moved, onSheet, relocked } from './references';
export { FormulaScanner, type TokenKind } from './scan';
export { partRange, tablePart, type TablePart } from './table-part';
export { replaced, rewrite, tokens, type Token } from './tokens';
export {
  FormulaError,
  LAST_COLUMN,
  LAST_ROW,
  type BinaryOperator,
  type Coordinate,
  type FormulaNode,
  type ReferenceNode,
} from './syntax';
