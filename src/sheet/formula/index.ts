export { callsTare, functionNames, isDynamic, isDynamicUnmarked, namesOtherFile, needsArray } from './calls';
export { /** @internal */ allFunctionFacts, functionFacts, type FunctionFacts } from './facts';
export { declaredNames, parameterNames, references, type FoundReference } from './found-references';
export { HANDED_ON } from './namespace';
export { matching, operandEnd, operandStart } from './operands';
export { parseFormula, tryFormula } from './parse';
export {
  moved,
  moveReferences,
  onSheet,
  relocked,
  templateKey,
  withColumnNames,
  withoutColumns,
  withoutSheet,
  withoutTable,
  withPlainGone,
  withSheetNames,
  withTableNames,
  type CellsMove,
  type GoneColumns,
  type LineEdit,
  type LinesMove,
} from './references';
export { cellsOf, numberLiteral, printFormula, textLiteral } from './spelling';
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
export {
  FormulaScanner,
  replaced,
  /** @internal */ rewrite,
  tokens,
  type Replacement,
  type Token,
  type TokenKind,
} from './tokens';
