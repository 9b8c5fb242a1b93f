/** The materials of a light airplane: their densities, and how a designation is looked up. */
import { refuseUnlisted } from '../input-error';
import { nearest } from '../names';
import { memoized } from '../memoized';

// Densities of the materials of a light airplane, each in the unit that its source prints.
//
// Aluminium alloys. The Aluminum Association prints two columns, g/cm³ to .01 and lb/in³ to .001, each
// rounded for itself, and they disagree by up to half a per cent: 6061 is 2.70 g/cm³, which is .0975
// lb/in³, and the inch column says .098. Used here is the g/cm³ column: a step of .01 in 2.70 is .4 %, a
// step of .001 in .098 is 1 %, and no value used lies more than .2 % outside what rounds to the other column.

/**
 * lb/in³ in one g/cm³: 2.54³ / 453.59237.
 * Exact by definition of the inch (25.4 mm) and the avoirdupois pound (0.45359237 kg), NIST SP 811 appendix B.
 */
export const LB_IN3_PER_G_CM3 = 2.54 ** 3 / 453.59237;

/** lb/in³ in one kg/m³. */
export const LB_IN3_PER_KG_M3 = LB_IN3_PER_G_CM3 / 1000;

/** lb/in³ in one lb/ft³. */
export const LB_IN3_PER_LB_FT3 = 1 / 1728;

/** Weight of a unit volume as printed by the source. */
export interface PrintedDensity {
  readonly value: number;
  readonly unit: 'g/cm3' | 'lb/in3';
}

export interface Material {
  /** As it is written on an order, without temper: "6061", "2024 clad", "Ti-6Al-4V". */
  readonly designation: string;
  /** Other ways in which it is written. */
  readonly aliases?: readonly string[];
  readonly what: string;
  readonly density: PrintedDensity;
  /** The same source's inch column, or another source that disagrees; not used. */
  readonly also?: string;
  readonly source: string;
}

const AA = 'Aluminum Association, nominal densities of aluminum and aluminum alloys';
/** What the Association gave to ASM's data sheets, which print it as "AA; Typical": read there, not in its own list. */
const AA_SHEETS = 'Aluminum Association, typical, as ASM data sheets print it';
const ASM = 'ASM data sheet';
const LISTS = 'published lists of alloys, which agree';
const g = (value: number): PrintedDensity => ({ value, unit: 'g/cm3' });
const lb = (value: number): PrintedDensity => ({ value, unit: 'lb/in3' });

export const MATERIALS: readonly Material[] = [
  {
    designation: '1100',
    what: 'aluminium, soft; rivets "A", baffles',
    density: g(2.71),
    also: '.098 lb/in³',
    source: AA,
  },
  { designation: '2014', what: 'aluminium; forgings, extrusions', density: g(2.8), also: '.101 lb/in³', source: AA },
  { designation: '2017', what: 'aluminium; rivets "D"', density: g(2.79), also: '.101 lb/in³', source: AA_SHEETS },
  {
    designation: '2024',
    what: 'aluminium, bare; structure, rivets "DD"',
    density: g(2.78),
    also: '.100 lb/in³',
    source: AA,
  },
  {
    designation: '2024 clad',
    what: 'aluminium sheet with a soft face; skins, ribs',
    // 5 % of the thickness on each face is 1230 (2.70), the rest 2024. Above .062 in the faces are 2.5 % and the density is 2.776.
    density: g(2.77),
    source: 'computed from nominal cladding, 5 % a side of 1230 (QQ-A-250/5, sheet under .063 in); from memory, verify',
  },
  { designation: '2117', what: 'aluminium; rivets "AD"', density: g(2.75), also: '.0994 lb/in³', source: LISTS },
  { designation: '3003', what: 'aluminium; fairings, tanks', density: g(2.73), also: '.099 lb/in³', source: AA },
  { designation: '5050', what: 'aluminium; blind rivet bodies', density: g(2.69), also: '.097 lb/in³', source: AA },
  {
    designation: '5052',
    what: 'aluminium; tanks, fairings, blind rivet bodies',
    density: g(2.68),
    also: '.097 lb/in³',
    source: AA,
  },
  { designation: '5056', what: 'aluminium; rivets "B"', density: g(2.64), also: '.0954 lb/in³', source: AA_SHEETS },
  { designation: '5083', what: 'aluminium', density: g(2.66), also: '.096 lb/in³', source: AA },
  { designation: '5086', what: 'aluminium', density: g(2.66), also: '.096 lb/in³', source: AA },
  { designation: '6061', what: 'aluminium; sheet, tube, extrusions', density: g(2.7), also: '.098 lb/in³', source: AA },
  { designation: '6063', what: 'aluminium; extrusions', density: g(2.7), also: '.097 lb/in³', source: AA },
  {
    designation: '6082',
    what: 'aluminium; extrusions (European)',
    density: g(2.7),
    also: 'one sheet prints 2.71',
    source: "mills' data sheets of EN AW-6082",
  },
  { designation: '7075', what: 'aluminium, bare; caps, fittings', density: g(2.81), also: '.101 lb/in³', source: AA },
  {
    designation: '7075 clad',
    what: 'aluminium sheet with a soft face',
    density: g(2.8),
    source:
      'computed from nominal cladding, 4 % a side of 7072 (QQ-A-250/13, sheet under .063 in); from memory, verify',
  },
  {
    designation: '7178',
    what: 'aluminium; blind rivet mandrels',
    density: g(2.83),
    also: '.102 lb/in³',
    source: AA_SHEETS,
  },
  {
    designation: '4130',
    aliases: ['CHROMOLY'],
    what: 'chromium-molybdenum steel; tube, fittings',
    density: g(7.85),
    also: '.284 lb/in³ on the same sheet; MIL-HDBK-5, from memory, .283',
    source: `${ASM} of AISI 4130`,
  },
  {
    designation: '1010',
    aliases: ['MILD STEEL', 'LOW-CARBON STEEL', 'STEEL'],
    what: 'low-carbon steel; blind rivets and mandrels',
    density: lb(0.284),
    also: '7.87 g/cm³',
    source: 'data sheets of AISI 1010: 7870 kg/m³, .284 lb/in³',
  },
  {
    designation: '304',
    aliases: ['STAINLESS', 'STAINLESS STEEL'],
    what: 'stainless steel; firewalls',
    density: g(8),
    also: '.289 lb/in³ on the same sheet; others disagree: sheets by EN 10088 print 7.9, alloy lists .286 lb/in³ (7.93)',
    source: `${ASM} of type 304`,
  },
  {
    designation: '316',
    what: 'stainless steel',
    density: g(8),
    source: "suppliers' data sheets of 1.4401: 8.0 g/cm³",
  },
  {
    designation: 'Ti-6Al-4V',
    aliases: ['6AL-4V', '6AL4V', 'TITANIUM', 'GRADE 5'],
    what: 'titanium alloy; firewalls, fittings',
    density: lb(0.16),
    also: '4.43 g/cm³; a data sheet prints .159 and 4.42',
    source: `${ASM} of the annealed bar`,
  },
  {
    designation: 'AZ31B',
    aliases: ['MAGNESIUM'],
    what: 'magnesium alloy sheet',
    density: lb(0.0639),
    also: '1.77 g/cm³',
    source: 'data sheets of AZ31B (ASTM B90 sheet), which print 1.77 g/cm³',
  },
  {
    designation: 'C360',
    aliases: ['BRASS', '360'],
    what: 'brass; bushings',
    density: lb(0.307),
    also: '8.49 g/cm³',
    source: 'data sheets of alloy C36000 (ASTM B16), .307 lb/in³',
  },
  {
    designation: 'Lead',
    what: 'lead; balance weights',
    density: g(11.34),
    also: 'a list that names the CRC Handbook prints 11.35',
    source: 'tables of the elements',
  },
  {
    designation: 'Acrylic',
    aliases: ['PMMA'],
    what: 'acrylic; windows',
    density: g(1.19),
    source: 'data sheets of cast sheet, by ASTM D792 and ISO 1183',
  },
  {
    designation: 'Polycarbonate',
    aliases: ['PC'],
    what: 'polycarbonate; windows',
    density: g(1.2),
    source: 'data sheets of extruded sheet, by ASTM D792',
  },
  {
    designation: 'Birch plywood',
    aliases: ['PLYWOOD'],
    what: 'varies with glue, moisture and grade',
    density: g(0.68),
    source: 'common practice, no source: weigh a sample',
  },
  {
    designation: 'GRP',
    aliases: ['FIBERGLASS', 'FIBREGLASS', 'GLASS LAMINATE'],
    what: 'hand-laid glass and resin; varies with the share of resin',
    density: g(1.8),
    source: 'common practice, no source: weigh a sample',
  },
];

// From what a builder writes ("6061-T6", "Alclad 2024-T3", "4130N") to a row of the table.

const key = (text: string): string => text.toUpperCase().replace(/[^A-Z0-9]/g, '');

const byKey = new Map(
  MATERIALS.flatMap((row) => [row.designation, ...(row.aliases ?? [])].map((name) => [key(name), row] as const)),
);

/** Words that say what a designation is and change nothing. */
const NOISE = /\b(?:AA|AISI|SAE|UNS|ALUMIN(?:I)?UM|ALLOY|TYPE|BARE|SHEET)\b/g;
/** A temper: O, F, H14, T6, T351, T3511, or the condition letter of a steel (4130N). */
const TEMPER = /[\s-]*(?:T\d{1,4}|H\d{1,3}|[OFWN]|T)$/;
const CLAD = /\b(?:AL)?CLAD\b/;

/**
 * The row of a designation, or undefined. Case, spaces, hyphens and a temper are of no consequence:
 * density does not depend on temper.
 */
export const findMaterial = (written: string): Material | undefined => found(written).row;

/** A list has few materials in many rows. */
const found = memoized((written: string) => ({ row: lookUp(written) }));

function lookUp(written: string): Material | undefined {
  const upper = written.toUpperCase().trim();
  const whole = byKey.get(key(upper));
  if (whole) return whole;
  const clad = CLAD.test(upper);
  const bare = upper.replace(CLAD, ' ').replace(NOISE, ' ').trim();
  const candidates = [bare, bare.replace(TEMPER, '')].filter(Boolean);
  return candidates.map((name) => byKey.get(key(clad ? `${name} clad` : name))).find((row) => row !== undefined);
}

/** The advice that goes with a designation that is not in the table: up to three that are near, its temper apart; undefined where none is. */
export function nearestWords(written: string): string | undefined {
  const names = nearest(
    written.toUpperCase().trim().replace(TEMPER, ''),
    MATERIALS.map((row) => row.designation),
  );
  return names.length > 0 ? `Nearest: ${names.join(', ')}. For another material give its density` : undefined;
}

/**
 * The row of a designation.
 * @throws NotListedError with the nearest designations of the table.
 */
export const material = (written: string, parameter = 'material'): Material =>
  findMaterial(written) ??
  refuseUnlisted(
    parameter,
    written,
    'a material of the table, or a density',
    nearestWords(written) ?? 'For a material that is not in the table give its density',
  );

/** Density of a row in lb/in³. */
export const densityOf = ({ density }: Material): number =>
  density.unit === 'lb/in3' ? density.value : density.value * LB_IN3_PER_G_CM3;
