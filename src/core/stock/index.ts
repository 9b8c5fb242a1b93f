export {
  cutList,
  lengthText,
  partsOf,
  planLeftovers,
  type BarPart,
  type BarPatternUse,
  type BarPlan,
  type BarStock,
  type CuttingPlan,
  type PartCount,
  type Piece,
  type Placement,
  type PlanOptions,
  type PlanStatus,
  type Rectangle,
  type SheetPart,
  type SheetPatternUse,
  type SheetPlan,
  type SheetPlanOptions,
  type SheetStock,
  type StockUse,
  type StripUse,
  type CutStep,
  type Leftover,
} from './plan';
export type { ControlOptions, Progress, LinearSolver } from './control';
export { planBars } from './plan-bars';
export { planSheets } from './plan-sheets';
export { planDxf } from './export-dxf';
export { patternSvg, type DrawingOptions } from './export-svg';
export type { Lie } from './lie';
export { readCutLists, type CutLists } from './cut-tables';
export { isPriced } from './plan-input';
