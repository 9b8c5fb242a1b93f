export {
  CellError,
  isBlank,
  isErrorCode,
  revived,
  sameCell,
  textIn,
  type Argument,
  type Cell,
  type ErrorCode,
  type Matrix,
  type Result,
  numberFrom,
} from './cell';
export { DAYS_1904, showsDate } from './date-format';
export { checkEdits } from './check-edits';
export {
  cellName,
  columnName,
  fullName,
  overlap,
  parseCell,
  parseRange,
  quoteSheet,
  rangeName,
  absoluteName,
  isInRange,
} from './address';
export type {
  CellModel,
  BarChart,
  ChoiceValidation,
  FilterColumn,
  FilterModel,
  NameModel,
  RangeAddress,
  SheetModel,
  Spill,
  StyleModel,
  TableModel,
  WorkbookModel,
} from './model';
export {
  isFormula,
  sheetOfEdit,
  WorkbookError,
  type CellInput,
  type Dates1904,
  type Edit,
  type MarkedPlace,
  type WorkbookOutline,
  type SheetContent,
  type SheetInfo,
  type SheetRequest,
  type Unsubscribe,
  type Workbook,
  type WorkbookChange,
} from './port';
export { askOneByOne, readOneByOne } from './one-by-one';
export { followSelection } from './follow-selection';
export { decodeText, freeSheetName } from './files';
export { tableTitles } from './table-titles';
