/** Weights of rivets, lb, and what stands in for them in a list of flat patterns. */
import { NotListedError } from '../input-error';
import { memoized } from '../memoized';
import { densityOf, material } from '../material';
import { BLIND_PAIRS } from './blind-data';
import { drillDiameter } from './drills';
import type { BlindRivet, OwnRivet, Rivet } from './rivet';
import { SOLID_ALLOYS } from './solid-data';
import { blindSize, blindVolumes, cylinder, solidSize, solidVolume } from './volume';

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
  if (rivet.kind === 'solid') return solidVolume(rivet) * densityIn(SOLID_ALLOYS[rivet.alloy]);
  return blindWeight(rivet, state);
}

/** Of a blind rivet by its diameter, length, metals and stem. */
export function blindWeight(rivet: Pick<BlindRivet, 'dash' | 'length' | 'stem' | 'pair'>, state: RivetState): number {
  const { body, mandrelHead, stem, stemKept } = blindVolumes(rivet);
  const metals = BLIND_PAIRS[rivet.pair];
  const mandrel = mandrelHead + (state === 'bought' ? stem : stemKept);
  return body * densityIn(metals.body) + mandrel * densityIn(metals.mandrel);
}

function ownWeight(rivet: OwnRivet, state: RivetState): number {
  const weight = rivet[state];
  if (weight !== undefined) return weight;
  throw new NotListedError(
    'rivet',
    rivet.designation,
    `a rivet whose weight ${state === 'bought' ? 'as bought' : 'installed'} is known`,
    state === 'bought'
      ? 'Type it in the table of rivets, or weigh some: Sample pieces and Sample (g)'
      : 'Type it in the table of rivets: set some, and weigh them',
  );
}

const densityIn = memoized((metal: string) => densityOf(material(metal)));

/** Rivets in a pound, as bought. */
export const rivetsPerPound = (rivet: Rivet): number => 1 / rivetWeight(rivet, 'bought');

/** The drill of a rivet: "#30"; of an own one what its row says, or its size's. */
export const rivetDrill = (rivet: Rivet): string => {
  if (rivet.kind === 'own') return rivet.drill || ownFact(rivet, 'drill');
  return (rivet.kind === 'solid' ? solidSize(rivet.dash) : blindSize(rivet.dash)).drill;
};

/** Diameter of the hole, inches: that of the drill. */
export const rivetHole = (rivet: Rivet): number =>
  rivet.kind === 'own' ? (rivet.hole ?? ownFact(rivet, 'hole')) : drillDiameter(rivetDrill(rivet));

function ownFact({ designation }: OwnRivet, what: string): never {
  throw new NotListedError('rivet', designation, `a rivet whose ${what} is in the table of rivets`);
}

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
