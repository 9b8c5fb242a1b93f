export {
  isBlind,
  sortOf,
  type BlindPair,
  type BlindRivet,
  type BlindStem,
  type OwnRivet,
  type PickStyle,
  type Rivet,
  type RivetStyle,
  type SolidAlloy,
  type SolidRivet,
  type SolidStyle,
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
export { FIRST_LOOK, jointStrength, MEMBERS, rivetsPerInch, type JointStrength, type Member } from './first-look';
export { BLIND_PAIRS, /** @internal */ isoLength, type BlindGrip, type BlindSize } from './blind-data';
export { SOLID_ALLOYS, SOLID_SIZES, type SolidSize } from './solid-data';
export { aboutRivet } from './about';
export { rivet } from './designation';
export type { BlindVolumes } from './volume';
export { holeMetal, rivetDrill, rivetHole, rivetsPerPound, rivetWeight, RIVET_STATES, type RivetState } from './weight';
export { MINUTES_EACH, rivetCount, rivetHours, rivetLength, rivetPitch, type Row } from './layout';
export { piecesPerPound } from './designation';
export { standardPart, /** @internal */ nutVolume, /** @internal */ pitchDiameter } from './standard-parts';
export { fraction, pickOwn, pickRivet, ROUNDINGS, type Rounding } from './pick';
export { PULL_TYPE, rivetShear } from './strength';
export { checkRivet, findingsText, HEAD_FORMS, type Finding, type HeadForm, type Layout } from './check';
export { inBoth, inInches, inMillimetres, type LengthText } from './format';
