export {
  HEAD_FORMS,
  isBlind,
  sortOf,
  fraction,
  inBoth,
  inInches,
  inMillimetres,
  type BlindPair,
  type BlindRivet,
  type BlindStem,
  type HeadForm,
  type OwnRivet,
  type PickStyle,
  type Rivet,
  type RivetStyle,
  type SolidAlloy,
  type SolidRivet,
  type SolidStyle,
  type LengthText,
} from './rivet';
export {
  OWN_COLUMNS,
  OWN_KINDS,
  ownPlaces,
  readOwnRivets,
  type OwnColumn,
  type OwnKey,
  type OwnProblem,
  type OwnRivets,
} from './own-table';
export {
  FIRST_LOOK,
  jointStrength,
  MEMBERS,
  rivetsPerInch,
  PULL_TYPE,
  rivetShear,
  type JointStrength,
  type Member,
} from './strength';
export {
  BLIND_PAIRS,
  /** @internal */ isoLength,
  SOLID_ALLOYS,
  SOLID_SIZES,
  type BlindGrip,
  type BlindSize,
  type SolidSize,
} from './sizes';
export { aboutRivet, forceText } from './about';
export {
  designationOf,
  rivet,
  rivetsAmong,
  piecesPerPound,
  pickOwn,
  pickRivet,
  ROUNDINGS,
  type Rounding,
} from './designation';
export {
  holeMetal,
  rivetDrill,
  rivetHole,
  rivetsPerPound,
  rivetWeight,
  RIVET_STATES,
  type BlindVolumes,
  type RivetState,
} from './weight';
export {
  MINUTES_EACH,
  rivetCount,
  rivetHours,
  rivetLength,
  rivetPitch,
  checkRivet,
  findingsText,
  type Row,
  type Finding,
  type Layout,
} from './layout';
export { standardPart, /** @internal */ nutVolume, /** @internal */ pitchDiameter } from './standard-parts';
