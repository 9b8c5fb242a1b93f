/** A rivet in words: what is known of it, where it is from, what is computed and what nobody has said. */
import { DIMENSIONS, type UnitSystem } from '../quantity';
import { unlessRefused } from '../input-error';
import { BLIND_GRIPS, isoLength } from './sizes';
import { inInches, inMillimetres, type LengthText, type BlindRivet, type Rivet } from './rivet';
import { rivetShear } from './strength';
import { rivetDrill, rivetWeight } from './weight';

const KINDS = { universal: 'universal head', flush: 'flush head', blind: 'blind' } as const;
const STEMS = { broken: ', the stem breaks off', retained: ', the stem is retained' } as const;

/** The facts of a rivet, one text. */
export function aboutRivet(rivet: Rivet, units: UnitSystem = 'in-lb'): string {
  const show = units === 'mm-kg' ? inMillimetres : inInches;
  const drill = unlessRefused(() => rivetDrill(rivet));
  const shear = unlessRefused(() => `shear ${forceText(rivetShear(rivet), units)}`);
  return [
    `${KINDS[rivet.style]}${rivet.kind === 'solid' || !rivet.stem ? '' : STEMS[rivet.stem]}`,
    gripText(rivet, show),
    lengthText(rivet, show),
    drill && `drill ${drill}`,
    weights(rivet, units),
    shear ?? 'shear: the maker’s, type it in the table of rivets',
    rivet.kind === 'own' && `computed: ${rivet.computed.join(', ') || 'nothing'}`,
    rivet.kind === 'own' && `source: ${rivet.source || 'not said'}`,
  ]
    .filter(Boolean)
    .join('; ');
}

/** A force as it is said: "178 lbf", "792 N". */
export const forceText = (pounds: number, units: UnitSystem): string =>
  units === 'mm-kg' ? `${Math.round(pounds * DIMENSIONS.force.factor)} N` : `${Math.round(pounds)} lbf`;

const gripText = (rivet: Rivet, show: LengthText): string | undefined =>
  rivet.kind === 'solid' || rivet.gripMin === undefined || rivet.gripMax === undefined
    ? undefined
    : `grip ${show(rivet.gripMin)} to ${show(rivet.gripMax)}`;

function lengthText(rivet: Rivet, show: LengthText): string | undefined {
  if (rivet.kind === 'blind') return bodyText(rivet, show);
  return rivet.length === undefined ? undefined : `length ${show(rivet.length)}`;
}

/** The body's length with what other sources have. */
function bodyText({ dash, gripDash, gripMax, length, stem }: BlindRivet, show: LengthText): string {
  const ARMY = 'TM 10-5410-221-14/1';
  if (stem === 'retained') return `body ${show(length)} (${ARMY})`;
  const iso = isoLength(dash, gripMax);
  const army = BLIND_GRIPS.find((one) => one.dash === dash && one.gripDash === gripDash)!.length.retained;
  return `body ${show(length)} (IFI-114 table 2, from memory, verify${iso === undefined ? '' : `; ISO 15981 ${iso} mm`}; where the stem is retained ${show(army)}, ${ARMY})`;
}

function weights(rivet: Rivet, units: UnitSystem): string {
  const [factor, sign] = units === 'mm-kg' ? [DIMENSIONS.weight.factor, 'kg'] : [1, 'lb'];
  const of = (state: 'bought' | 'installed'): string =>
    unlessRefused(() => `${Number((rivetWeight(rivet, state) * 1000 * factor).toPrecision(3))} ${sign} ${state}`) ??
    `not known ${state}`;
  return `1000 weigh ${of('bought')}, ${of('installed')}${rivet.kind === 'own' ? '' : ' (computed from dimensions)'}`;
}
