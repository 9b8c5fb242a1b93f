export { callsTare, functionNames, isDynamic, isDynamicUnmarked, namesOtherFile } from './calls';
export { /** @internal */ allFunctionFacts, functionFacts, type FunctionFacts } from './facts';
export { references, type FoundReference } from './found-references';
export { numberLiteral, textLiteral } from './literals';
export { moveReferences, type CellsMove, type LineEdit, type LinesMove } from './move-references';
export { HANDED_ON } from './namespace';
export { needsArray } from './needs-array';
export { matching, operandEnd, operandStart } from './operands';
export { declaredNames, parameterNames } from './parameters';
export { parseFormula, tryFormula } from './parse';
export { filePart, partItems, typedPart, type PartItem } from './part-items';
export { printFormula } from './print';
export { moved, onSheet, relocked } from './references';
export { withColumnNames, withSheetNames, withTableNames } from './rename';
export { templateKey } from './template';
export { FormulaScanner, type TokenKind } from './scan';
export { partRange, tablePart, type TablePart } from './table-part';
export { replaced, /** @internal */ rewrite, tokens, type Token } from './tokens';
export { withoutColumns, withoutSheet, withPlainGone, withoutTable, type GoneColumns } from './without';
export {
  FormulaError,
  LAST_COLUMN,
  LAST_ROW,
  type BinaryOperator,
  type Coordinate,
  type FormulaNode,
  type ReferenceNode,
} from './syntax';
