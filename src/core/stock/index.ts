export type {
  BarCut,
  BarPart,
  BarPatternUse,
  BarPlan,
  BarStock,
  CuttingPlan,
  PartCount,
  Piece,
  Placement,
  PlanOptions,
  PlanStatus,
  Rectangle,
  SheetPart,
  SheetPatternUse,
  SheetPlan,
  SheetPlanOptions,
  SheetStock,
  StockUse,
  StripUse,
} from './plan';
export type { ControlOptions, Progress } from './control';
export { planBars } from './plan-bars';
export { planSheets } from './plan-sheets';
export type { LinearSolver } from './solver';
export { cutList, lengthText, type CutStep } from './cut-list';
export { partsOf, planLeftovers, type Leftover } from './leftovers';
export { planDxf } from './export-dxf';
export { patternSvg, type DrawingOptions } from './export-svg';
export type { Lie } from './lie';
export { readCutLists, type CutLists } from './cut-tables';
export { isPriced } from './plan-input';
