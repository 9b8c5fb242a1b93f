export { buyRivets, rivetPrices, type LengthNeed, type Material } from './buy';
export { compareRivets, DEFAULT_MINUTES, DEFAULT_TERMS, type ChoiceJoint, type Compared, type JointLine, type Minutes, type OptionResult, type Refused, type RivetOption, type Terms } from './compare';
export { KIND_TAKES, readKind, rivetOfKind, type RivetKind, type Seat } from './kind';
export { knownShear, PULL_TYPE_CAUTION, SHEAR_CAUTION, shearKey, strengthOf, type MakersShear, type Strength } from './strength';
export { toolsFor, type Tool, type ToolNeed } from './tools';
