/**
 * CONVERT: units of one quantity into one another. Source of the names: Microsoft, the page on CONVERT, and OpenFormula 1.3,
 * 6.16.19. Sources of the sizes: NIST Special Publication 811 (2008), appendix B, where a unit is defined by another the
 * exact figure; the nautical mile, knot, stone and the rest by their definitions.
 */
import type { Cell } from '../../sheet';
import { failure, finite, toNumber } from '../values';
import { cells, textOf, unlessError, type Family } from './define';

interface Unit {
  readonly quantity: string;
  /** In the quantity's base unit. */
  readonly size: number;
  /** What is added after scaling: of temperatures. */
  readonly zero?: number;
  readonly takesPrefix?: boolean;
  readonly binary?: boolean;
  /** The prefix counts twice or three times: of areas and volumes. */
  readonly power?: number;
}

const INCH = 0.0254;
const FOOT = 12 * INCH;
const YARD = 3 * FOOT;
const MILE = 5280 * FOOT;
const NAUTICAL = 1852;
const SURVEY = 1200 / 3937;
const LIGHT_YEAR = 9_460_730_472_580_800;
const PARSEC = 3.08567758128155e16;
const POUND = 453.59237;
const GALLON = 231 * INCH ** 3 * 1000;
const IMPERIAL = 4.54609;
const GRAVITY = 9.80665;
const POINT = INCH / 72;
const PICA = INCH / 6;

const metric = { takesPrefix: true };

/** Quantities, names of their units with the sizes, and what else holds of these units. */
const GROUPS: readonly (readonly [string, Readonly<Record<string, number>>, Partial<Unit>?])[] = [
  ['mass', { g: 1, u: 1.6605390666e-24 }, metric],
  [
    'mass',
    {
      lbm: POUND,
      sg: (POUND * GRAVITY) / FOOT,
      ozm: POUND / 16,
      grain: POUND / 7000,
      'cwt shweight': POUND * 100,
      'uk_cwt lcwt hweight': POUND * 112,
      stone: POUND * 14,
      ton: POUND * 2000,
      'uk_ton LTON brton': POUND * 2240,
    },
  ],
  ['distance', { m: 1, ang: 1e-10, ly: LIGHT_YEAR, 'parsec pc': PARSEC }, metric],
  [
    'distance',
    {
      mi: MILE,
      Nmi: NAUTICAL,
      in: INCH,
      ft: FOOT,
      yd: YARD,
      ell: 45 * INCH,
      'Picapt Pica': POINT,
      pica: PICA,
      survey_mi: 5280 * SURVEY,
    },
  ],
  ['time', { 'sec s': 1 }, metric],
  ['time', { yr: 31_557_600, 'day d': 86_400, hr: 3600, 'mn min': 60 }],
  ['pressure', { 'Pa p': 1, 'atm at': 101_325, mmHg: 133.322 }, metric],
  ['pressure', { psi: ((POUND / 1000) * GRAVITY) / INCH ** 2, Torr: 101_325 / 760 }],
  ['force', { N: 1, 'dyn dy': 1e-5, pond: GRAVITY / 1000 }, metric],
  ['force', { lbf: (POUND / 1000) * GRAVITY }],
  ['energy', { J: 1, e: 1e-7, c: 4.184, cal: 4.1868, 'eV ev': 1.602176634e-19, 'Wh wh': 3600 }, metric],
  [
    'energy',
    {
      'HPh hh': 2_684_519.537696172792,
      flb: (POUND / 1000) * GRAVITY * FOOT,
      'BTU btu': 1055.05585262,
    },
  ],
  ['power', { 'W w': 1 }, metric],
  ['power', { 'HP h': 550 * ((POUND / 1000) * GRAVITY) * FOOT, PS: 75 * GRAVITY }],
  ['magnetism', { T: 1, ga: 1e-4 }, metric],
  ['temperature', { 'K kel': 1 }, metric],
  ['temperature', { 'C cel': 1 }, { zero: 273.15 }],
  ['temperature', { 'F fah': 5 / 9 }, { zero: 459.67 * (5 / 9) }],
  ['temperature', { Rank: 5 / 9 }],
  ['temperature', { Reau: 1.25 }, { zero: 273.15 }],
  ['volume', { 'l L lt': 1 }, metric],
  ['volume', { m3: 1000, 'm^3': 1000, ang3: 1e-27, 'ang^3': 1e-27 }, { ...metric, power: 3 }],
  [
    'volume',
    {
      tsp: GALLON / 768,
      tspm: 0.005,
      tbs: GALLON / 256,
      oz: GALLON / 128,
      cup: GALLON / 16,
      'pt us_pt': GALLON / 8,
      uk_pt: IMPERIAL / 8,
      qt: GALLON / 4,
      uk_qt: IMPERIAL / 4,
      gal: GALLON,
      uk_gal: IMPERIAL,
      barrel: GALLON * 42,
      bushel: 2150.42 * INCH ** 3 * 1000,
      'ft3 ft^3': FOOT ** 3 * 1000,
      'in3 in^3': INCH ** 3 * 1000,
      'ly3 ly^3': LIGHT_YEAR ** 3 * 1000,
      'mi3 mi^3': MILE ** 3 * 1000,
      'yd3 yd^3': YARD ** 3 * 1000,
      'Nmi3 Nmi^3': NAUTICAL ** 3 * 1000,
      'Picapt3 Picapt^3 Pica3 Pica^3': POINT ** 3 * 1000,
      'GRT regton': 100 * FOOT ** 3 * 1000,
      MTON: 40 * FOOT ** 3 * 1000,
    },
  ],
  ['area', { m2: 1, 'm^2': 1, ang2: 1e-20, 'ang^2': 1e-20 }, { ...metric, power: 2 }],
  ['area', { ar: 100 }, metric],
  [
    'area',
    {
      uk_acre: 4840 * YARD ** 2,
      us_acre: 43_560 * SURVEY ** 2,
      'ft2 ft^2': FOOT ** 2,
      ha: 10_000,
      'in2 in^2': INCH ** 2,
      'ly2 ly^2': LIGHT_YEAR ** 2,
      'mi2 mi^2': MILE ** 2,
      Morgen: 2500,
      'Nmi2 Nmi^2': NAUTICAL ** 2,
      'Picapt2 Picapt^2 Pica2 Pica^2': POINT ** 2,
      'yd2 yd^2': YARD ** 2,
    },
  ],
  ['information', { bit: 1, byte: 8 }, { ...metric, binary: true }],
  ['speed', { 'm/s m/sec': 1, 'm/h m/hr': 1 / 3600 }, metric],
  ['speed', { admkn: (6080 * FOOT) / 3600, kn: NAUTICAL / 3600, mph: MILE / 3600 }],
];

const UNITS: ReadonlyMap<string, Unit> = new Map(
  GROUPS.flatMap(([quantity, sizes, more]) =>
    Object.entries(sizes).flatMap(([names, size]) =>
      names.split(' ').map((name) => [name, { quantity, size, ...more }] as const),
    ),
  ),
);

const PREFIXES: ReadonlyMap<string, number> = new Map([
  ['Y', 1e24],
  ['Z', 1e21],
  ['E', 1e18],
  ['P', 1e15],
  ['T', 1e12],
  ['G', 1e9],
  ['M', 1e6],
  ['k', 1e3],
  ['h', 1e2],
  ['da', 10],
  ['e', 10],
  ['d', 0.1],
  ['c', 0.01],
  ['m', 1e-3],
  ['u', 1e-6],
  ['n', 1e-9],
  ['p', 1e-12],
  ['f', 1e-15],
  ['a', 1e-18],
  ['z', 1e-21],
  ['y', 1e-24],
]);
const BINARY_PREFIXES = ['ki', 'Mi', 'Gi', 'Ti', 'Pi', 'Ei', 'Zi', 'Yi'];

function unitOf(name: string): Unit | undefined {
  const whole = UNITS.get(name);
  if (whole) return whole;
  for (const length of [2, 1]) {
    const prefix = name.slice(0, length);
    const unit = UNITS.get(name.slice(length));
    if (!unit?.takesPrefix) continue;
    const binary = unit.binary ? BINARY_PREFIXES.indexOf(prefix) : -1;
    if (binary >= 0) return { ...unit, size: unit.size * 1024 ** (binary + 1) };
    const factor = PREFIXES.get(prefix);
    if (factor !== undefined) return { ...unit, size: unit.size * factor ** (unit.power ?? 1) };
  }
  return undefined;
}

function converted(value: number, from: string, to: string): Cell {
  const a = unitOf(from);
  const b = unitOf(to);
  if (!a || !b || a.quantity !== b.quantity) return failure('#N/A');
  if (from === to) return finite(value);
  if (a.zero === undefined && b.zero === undefined) return finite((value * a.size) / b.size);
  const base = value * a.size + (a.zero ?? 0);
  return finite(Number(((base - (b.zero ?? 0)) / b.size).toPrecision(15)));
}

export const convertFunctions: Family = {
  CONVERT: cells(3, 3, (value, from, to) =>
    unlessError([toNumber(value)], (number) => converted(number, textOf(from), textOf(to))),
  ),
};
