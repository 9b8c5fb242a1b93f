export { bookWithRivets, type LengthNeed, type Material } from './buy';
export {
  compareRivets,
  DEFAULT_TERMS,
  type ChoiceJoint,
  type Compared,
  type JointLine,
  type Minutes,
  type OptionResult,
  type Refused,
  type RivetOption,
  type Terms,
} from './compare';
export { isPulled, KIND_TAKES, readKind, type RivetKind, type Seat } from './kind';
export { PULL_TYPE_CAUTION, SHEAR_CAUTION, shearKey, type MakersShear, type Strength } from './strength';
export { readTools, type Tool, type ToolNeed } from './tools';
