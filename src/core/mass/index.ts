export { Tally, type Point } from './tally';
export { isSumName } from './sum-names';
export { RollUpSum, TOTAL, type GroupTotal, type RollUp } from './roll-up';
export { inertiaAbout, massProperties, type Body, type Inertia, type MassProperties } from './inertia';
export { AXES, plateInertia, rodInertia, tubeInertia, type Axis } from './own-inertia';
export { SIDES, bothSides, type Sides } from './mirror';
export { evenStations } from './stations';
export {
  GROWTH_ALLOWANCES,
  GROWTH_SOURCE,
  STATUSES,
  forecastWeight,
  growthAllowance,
  isWeighed,
  type Allowance,
  type Status,
} from './growth';
export { budget, type BudgetGoal, type BudgetLine, type BudgetPart } from './budget';
export { weightBands, type TolerancedRow, type WeightBand } from './band';
export { THICKNESS_TOLERANCE_SOURCE, thicknessTolerance, type ThicknessTolerance } from './thickness-tolerance';
export { applyBias, isBiasCertain, weighingBias, type Bias, type Corrected, type WeighedPart } from './bias';
