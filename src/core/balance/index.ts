export { armFromMac, ballastWeight, percentMac, shiftedArm, type Load } from './arms';
export { armsAt, contains, makeEnvelope, TOLERANCE, type Envelope, type LimitPiece, type Range } from './envelope';
export { ballastIntoEnvelope, type LoadLine, type Stretch } from './load-line';
export {
  INCH_POUND,
  LIMITS_CAUTION,
  judge,
  judgementWords,
  wordingOf,
  type Finding,
  type Judgement,
  type Wording,
} from './judge';
export {
  weigh,
  type Correction,
  type Gear,
  type WeighedPoint,
  type WeighingPoint,
  type WeighingRecord,
  type WeighingResult,
} from './weighing';
export {
  judgeCase,
  type Airplane,
  type CaseResult,
  type LoadedPoint,
  type LoadingCase,
  type Station,
  type StationFinding,
} from './loading';
export {
  allInside,
  reachableOutline,
  worstLoadings,
  type LeastMargin,
  type WorstLoading,
  type WorstLoadings,
} from './extremes';
export { counterweight, hingeMoment, measuredMoment, surfaceBalance, type SurfaceBalance } from './hinge';
