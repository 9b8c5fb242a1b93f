export { callsTare, functionNames, isDynamic, isDynamicUnmarked, namesOtherFile, needsArray } from './calls';
export { /** @internal */ allFunctionFacts, functionFacts, type FunctionFacts } from './facts';
export { references, type FoundReference } from './found-references';
export { moveReferences, type CellsMove, type LineEdit, type LinesMove } from './move-references';
export { HANDED_ON } from './namespace';
export { matching, operandEnd, operandStart } from './operands';
export { declaredNames, parameterNames } from './parameters';
export { parseFormula, tryFormula } from './parse';
export { printFormula } from './print';
export { moved, onSheet, relocked, templateKey } from './references';
export {
  withColumnNames,
  withoutColumns,
  withoutSheet,
  withoutTable,
  withPlainGone,
  withSheetNames,
  withTableNames,
  type GoneColumns,
} from './rename';
export { FormulaScanner, type TokenKind } from './scan';
export { numberLiteral, textLiteral } from './spelling';
export {
  FormulaError,
  LAST_COLUMN,
  LAST_ROW,
  type BinaryOperator,
  type Coordinate,
  type FormulaNode,
  type ReferenceNode,
} from './syntax';
export { filePart, partItems, partRange, tablePart, typedPart, type PartItem, type TablePart } from './table-part';
export { replaced, /** @internal */ rewrite, tokens, type Replacement, type Token } from './tokens';
