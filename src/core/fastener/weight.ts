/** What rivets weigh, from the volumes of simple solids. */
import {
  BLIND_SIZES,
  BLIND_PAIRS,
  FLUSH_HEAD_ANGLE,
  SOLID_SIZES,
  UNIVERSAL_HEAD,
  SOLID_ALLOYS,
  DRILLS,
  type BlindSize,
  type Drill,
  type SolidSize,
} from './sizes';
import type { BlindRivet, SolidRivet, SolidStyle, OwnRivet, Rivet } from './rivet';
import { refuseUnlisted } from '../input-error';
import { memoized } from '../memoized';
import { densityOf, material } from '../material';

// Volumes of rivets, in³, from simple solids.
//
// The models. A universal head is a spherical cap of the head's diameter and height (the real one is a
// little flatter on top and fuller at the rim). A flush head is the frustum of its 100° cone. A blind
// rivet's body is a tube whose bore is the mandrel's nominal diameter and whose outside is the middle of
// its limits; its head is a spherical cap with the same bore; its mandrel is a wire, ending on the blind side
// in a head that is a frustum from the mandrel's diameter to the body's least, as long as IFI-114 lets it
// stand out of the body. IFI-114 defines that the mandrel breaks at or near its junction with that head:
// so the head stays in a rivet that has been set, and the wire goes. Where the stem is retained, the wire that lies
// in the body and its head stays as well: what stands out of the head is trimmed off.

const cylinder = (diameter: number, length: number): number => ((Math.PI * diameter ** 2) / 4) * length;

/** Cap of a sphere from its base diameter and height. @internal */
export const sphericalCap = (diameter: number, height: number): number =>
  ((Math.PI * height) / 6) * (3 * (diameter / 2) ** 2 + height ** 2);

const frustum = (from: number, to: number, length: number): number =>
  ((Math.PI * length) / 12) * (from ** 2 + from * to + to ** 2);

/** A spherical cap with a bore along its axis. @internal */
export function boredCap(diameter: number, height: number, bore: number): number {
  const a = diameter / 2;
  const b = bore / 2;
  const radius = (a ** 2 + height ** 2) / (2 * height);
  const shell = ((2 * Math.PI) / 3) * ((radius ** 2 - b ** 2) ** 1.5 - (radius ** 2 - a ** 2) ** 1.5);
  return shell - Math.PI * (radius - height) * (a ** 2 - b ** 2);
}

export const solidSize = (dash: number): SolidSize => SOLID_SIZES.find((size) => size.dash === dash)!;

const blindSize = (dash: number): BlindSize => BLIND_SIZES.find((size) => size.dash === dash)!;

/** Height of a flush head: (A − D) / (2 tan 50°). @internal */
export const flushHeadHeight = (size: Pick<SolidSize, 'flushHead' | 'shank'>): number =>
  (size.flushHead - size.shank) / (2 * Math.tan(((FLUSH_HEAD_ANGLE / 2) * Math.PI) / 180));

/** Volume of a solid rivet; driving it moves metal and takes none away. @internal */
export function solidVolume({ dash, style, length }: Pick<SolidRivet, 'dash' | 'style' | 'length'>): number {
  const { shank, flushHead } = solidSize(dash);
  return shapeVolume(style, shank, style === 'flush' ? flushHead : UNIVERSAL_HEAD.diameter * shank, length);
}

/** The same by shank and head; a universal head is as high as its diameter asks for. */
export function shapeVolume(style: SolidStyle, shank: number, head: number, length: number): number {
  if (style === 'universal')
    return sphericalCap(head, (UNIVERSAL_HEAD.height / UNIVERSAL_HEAD.diameter) * head) + cylinder(shank, length);
  const height = flushHeadHeight({ flushHead: head, shank });
  return frustum(head, shank, height) + cylinder(shank, length - height);
}

/** Volumes of the three parts of a blind rivet. */
export interface BlindVolumes {
  /** Body and domed head, with the bore. */
  readonly body: number;
  /** Mandrel head, which stays. */
  readonly mandrelHead: number;
  /** Mandrel wire, as it comes. */
  readonly stem: number;
  /** The part of the wire that stays in the rivet after it is set. */
  readonly stemKept: number;
}

const middle = ({ max, min }: { readonly max: number; readonly min: number }): number => (max + min) / 2;

/** @internal */
export function blindVolumes({ dash, length, stem }: Pick<BlindRivet, 'dash' | 'length' | 'stem'>): BlindVolumes {
  const size = blindSize(dash);
  const tube = cylinder(middle(size.body), length) - cylinder(size.mandrel, length);
  return {
    body: tube + boredCap(middle(size.head), size.head.height, size.mandrel),
    mandrelHead: frustum(size.mandrel, size.body.min, size.blindSide),
    stem: cylinder(size.mandrel, length + size.head.height + size.protrusion),
    stemKept: stem === 'retained' ? cylinder(size.mandrel, length + size.head.height) : 0,
  };
}

// Weights of rivets, lb, and what stands in for them in a list of flat patterns.

/** bought: as it comes in the bag; installed: a blind rivet has lost its stem, or what of it stands out of the head. */
export type RivetState = 'installed' | 'bought';
export const RIVET_STATES = ['installed', 'bought'] as const satisfies readonly RivetState[];

/**
 * Weight of one rivet, lb. A solid rivet weighs the same in both states.
 * @throws NotListedError for an own rivet whose row neither has the weight nor what it could be computed from
 */
export const rivetWeight = (rivet: Rivet, state: RivetState = 'installed'): number => WEIGHTS[state](rivet);

const WEIGHTS: Readonly<Record<RivetState, (rivet: Rivet) => number>> = {
  installed: memoized((rivet: Rivet) => weightOf(rivet, 'installed')),
  bought: memoized((rivet: Rivet) => weightOf(rivet, 'bought')),
};

function weightOf(rivet: Rivet, state: RivetState): number {
  if (rivet.kind === 'own') return ownWeight(rivet, state);
  return rivet.kind === 'solid' ? solidVolume(rivet) * densityIn(SOLID_ALLOYS[rivet.alloy]) : blindWeight(rivet, state);
}

/** Of a blind rivet by its diameter, length, metals and stem. */
export function blindWeight(rivet: Pick<BlindRivet, 'dash' | 'length' | 'stem' | 'pair'>, state: RivetState): number {
  const { body, mandrelHead, stem, stemKept } = blindVolumes(rivet);
  const metals = BLIND_PAIRS[rivet.pair];
  const mandrel = mandrelHead + (state === 'bought' ? stem : stemKept);
  return body * densityIn(metals.body) + mandrel * densityIn(metals.mandrel);
}

const ownWeight = (rivet: OwnRivet, state: RivetState): number =>
  rivet[state] ??
  refuseUnlisted(
    'rivet',
    rivet.designation,
    `a rivet whose weight ${state === 'bought' ? 'as bought' : 'installed'} is known`,
    state === 'bought'
      ? 'Type it in the table of rivets, or weigh some: Sample pieces and Sample (g)'
      : 'Type it in the table of rivets: set some, and weigh them',
  );

const densityIn = memoized((metal: string) => densityOf(material(metal)));

/** Rivets in a pound, as bought. */
export const rivetsPerPound = (rivet: Rivet): number => 1 / rivetWeight(rivet, 'bought');

/** The drill of a rivet: "#30"; of an own one what its row says, or its size's. */
export const rivetDrill = (rivet: Rivet): string =>
  rivet.kind === 'own' ? rivet.drill || ownFact(rivet, 'drill') : drillOf(rivet);

const drillOf = ({ kind, dash }: SolidRivet | BlindRivet): Drill =>
  (kind === 'solid' ? solidSize(dash) : blindSize(dash)).drill;

/** Diameter of the hole, inches: that of the drill. */
export const rivetHole = (rivet: Rivet): number =>
  rivet.kind === 'own' ? (rivet.hole ?? ownFact(rivet, 'hole')) : DRILLS[drillOf(rivet)];

const ownFact = ({ designation }: OwnRivet, what: string): never =>
  refuseUnlisted('rivet', designation, `a rivet whose ${what} is in the table of rivets`);

/**
 * Weight of the sheet that is drilled out for one rivet, lb.
 *
 * A flat pattern is weighed without its rivet holes and a rivet is weighed whole, so that the metal within
 * the grip is counted twice: once as sheet, once as shank. For MS20470AD4-4 through .072 of 2024 that is
 * a fifth of the rivet; of a whole wing it is a fraction of a per cent. Take this off where it matters.
 *
 * @param density of the sheets, lb/in³
 */
export const holeMetal = (rivet: Rivet, grip: number, density: number): number =>
  cylinder(rivetHole(rivet), grip) * density;
