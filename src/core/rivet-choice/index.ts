export { bookWithRivets, readTools, type LengthNeed, type Material, type Tool, type ToolNeed } from './buy';
export {
  compareRivets,
  DEFAULT_TERMS,
  SHEAR_CAUTION,
  shearKey,
  type ChoiceJoint,
  type Compared,
  type JointLine,
  type Minutes,
  type OptionResult,
  type Refused,
  type RivetOption,
  type Terms,
  type MakersShear,
  type Strength,
} from './compare';
export { isPulled, KIND_TAKES, readKind, type RivetKind, type Seat } from './kind';
