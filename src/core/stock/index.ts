export type {
  BarCut, BarPart, BarPatternUse, BarPlan, BarStock, CuttingPlan, PartCount, Piece, Placement, PlanOptions, PlanStatus, Rectangle, SheetPart, SheetPatternUse, SheetPlan, SheetPlanOptions, SheetStock, StockUse, StripUse,
} from './plan';
export { lieForBends, placements, stripPlaces } from './plan';
export type { ControlOptions, Progress } from './control';
export { planBars } from './plan-bars';
export { LIE_WORDS, planSheets } from './plan-sheets';
export type { LinearSolver } from './solver';
export { cutList, lengthText, type CutStep } from './cut-list';
export { planCsv } from './export-csv';
export { planDxf } from './export-dxf';
export { patternSvg, type DrawingOptions } from './export-svg';
export { LIES, type Lie } from './lie';
export { PART_COLUMNS, readParts, readStock, STOCK_COLUMNS, type PartKey, type PartsTable, type StockKey, type StockRow, type StockTable, type TableCell, type TableColumn, type TableProblem } from './tables';
