/** The smallest radius of a bend by the charts, and a drawn bend checked against it. */
import { ifListed, NotListedError } from '../input-error';
import { memoized } from '../memoized';
import { setback } from './bends';

// Smallest inside radius to which a sheet is bent cold, by material and thickness. The charts disagree; each is kept
// as it is printed, and the one that is used says so. The first that lists the metal is used; the one from memory
// comes behind those whose document was seen.

/** In the order in which they are looked through; those that are added come last. */
export const CHARTS = ['advisory', 'association', 'handbook', 'practice', 'extract'] as const;
export type ChartName = (typeof CHARTS)[number];

interface Chart {
  readonly source: string;
  /** Thicknesses of the columns, in inches. */
  readonly thicknesses: readonly number[];
  /** What the figures are: inches, or multiples of the thickness. */
  readonly unit: 'inches' | 'thicknesses';
  /** Designations with their figures, one for each thickness. */
  readonly rows: readonly (readonly [
    materials: readonly string[],
    radii: readonly number[],
    /** Lower ends, where the chart prints ranges. */
    lows?: readonly number[],
  ])[];
}

const HANDBOOK: Chart = {
  source: 'FAA-H-8083-31 chapter 4, minimum bend radius chart (from memory, verify)',
  unit: 'inches',
  thicknesses: [0.012, 0.016, 0.02, 0.025, 0.032, 0.04, 0.05, 0.063, 0.071, 0.08, 0.09, 0.1, 0.125, 0.16, 0.19, 0.25],
  rows: [
    [
      ['5052-O', '6061-O', '5052-H32'],
      [0.03, 0.03, 0.03, 0.03, 0.03, 0.06, 0.06, 0.06, 0.09, 0.09, 0.09, 0.12, 0.12, 0.16, 0.19, 0.31],
    ],
    [
      ['7178-O', '2024-O', '5052-H34', '6061-T4', '7075-O'],
      [0.03, 0.03, 0.03, 0.03, 0.03, 0.06, 0.06, 0.09, 0.12, 0.16, 0.19, 0.22, 0.25, 0.31, 0.38, 0.62],
    ],
    [['6061-T6'], [0.03, 0.03, 0.03, 0.06, 0.06, 0.09, 0.12, 0.16, 0.16, 0.19, 0.22, 0.25, 0.31, 0.44, 0.56, 0.75]],
    [['7075-T6'], [0.03, 0.03, 0.12, 0.16, 0.19, 0.22, 0.25, 0.31, 0.38, 0.44, 0.5, 0.62, 0.88, 1.25, 1.38, 2]],
    [
      ['2024-T3', '2024-T4'],
      [0.06, 0.09, 0.09, 0.12, 0.12, 0.16, 0.19, 0.22, 0.25, 0.34, 0.38, 0.44, 0.5, 0.75, 1, 1.25],
    ],
    [['2024-T6'], [0.06, 0.09, 0.09, 0.09, 0.12, 0.16, 0.19, 0.25, 0.31, 0.38, 0.44, 0.5, 0.62, 0.75, 1, 1.25]],
  ],
};

/**
 * All 13 rows seen in a scan. Printed as ranges ("2t-4t"): the upper end is the minimum here, since the lower one asks
 * for the best tools and metal; a radius between the two is told as that. Lower ends of some rows are not in hand.
 */
const ADVISORY: Chart = {
  source: 'AC 43.13-1B table 4-6, upper end of the range',
  unit: 'thicknesses',
  thicknesses: [0.016, 0.032, 0.064, 0.128, 0.182, 0.258],
  rows: [
    [['2024-O'], [0, 1, 1, 1, 1, 1], [0, 0, 0, 0, 0, 0]],
    [['2024-T3'], [3, 4, 5, 6, 6, 7], [1.5, 2, 3, 4, 4, 5]],
    [['2024-T6'], [4, 5, 5, 6, 7, 10]],
    [['5052-O'], [0, 0, 1, 1, 1, 1], [0, 0, 0, 0, 0, 0]],
    [['5052-H32'], [0, 0, 1, 1.5, 1.5, 1.5], [0, 0, 0.5, 0.5, 0.5, 0.5]],
    [['5052-H34'], [0, 0, 1.5, 2.5, 2.5, 3], [0, 0, 0.5, 1.5, 1.5, 2]],
    [['5052-H36'], [1, 1.5, 2, 3, 4, 4]],
    [['5052-H38'], [1.5, 2, 3, 4, 5, 6]],
    [['6061-O'], [0, 1, 1, 1, 1, 1], [0, 0, 0, 0, 0, 0]],
    [['6061-T4'], [1, 1, 1.5, 2, 3, 4], [0, 0, 0.5, 1, 1.5, 2.5]],
    [['6061-T6'], [1, 1.5, 2, 3, 4, 4], [0, 0.5, 1, 1.5, 2, 3]],
    [['7075-O'], [0, 1, 1, 1.5, 2, 3]],
    [['7075-T6'], [4, 5, 6, 7, 7, 10], [2, 3, 4, 5, 5, 6]],
  ],
};

/** Aluminum Design Manual (January 2005), part VII table 3-1, and a design book's reprint: copies. The rows of 7075 are from memory, verify. */
const ASSOCIATION: Chart = {
  source: 'Aluminum Association, minimum radii for 90° cold forming',
  unit: 'thicknesses',
  thicknesses: [1 / 64, 1 / 32, 1 / 16, 1 / 8, 3 / 16, 1 / 4],
  rows: [
    [['1100-O'], [0, 0, 0, 0, 0.5, 1]],
    [['1100-H12'], [0, 0, 0, 0.5, 1, 1]],
    [['1100-H14'], [0, 0, 0, 1, 1, 1.5]],
    [['2024-O'], [0, 0, 0, 0.5, 1, 1]],
    [
      ['2024-T3', '2024-T4'],
      [2.5, 3, 4, 5, 5, 6],
    ],
    [['3003-O'], [0, 0, 0, 0, 0.5, 1]],
    [['3003-H12'], [0, 0, 0, 0.5, 1, 1]],
    [['3003-H14'], [0, 0, 0, 1, 1, 1.5]],
    [['5052-O'], [0, 0, 0, 0.5, 1, 1]],
    [['5052-H32'], [0, 0, 1, 1.5, 1.5, 1.5]],
    [['5052-H34'], [0, 1, 1.5, 2, 2, 2.5]],
    [['5052-H36'], [1, 1, 1.5, 2.5, 3, 3.5]],
    [['5052-H38'], [1, 1.5, 2.5, 3, 4, 5]],
    [['6061-O'], [0, 0, 0, 1, 1, 1]],
    [['6061-T4'], [0, 0, 1, 1.5, 2.5, 3]],
    [['6061-T6'], [1, 1, 1.5, 2.5, 3, 3.5]],
    [['7075-O'], [0, 0, 1, 1, 1.5, 2.5]],
    [['7075-T6'], [3, 4, 5, 6, 6, 8]],
  ],
};

/** Steels, which the aluminium charts leave out. */
const PRACTICE: Chart = {
  source: 'common practice, no source',
  unit: 'thicknesses',
  thicknesses: [0.125],
  rows: [
    [['4130', '4130-N'], [3]],
    [['4130-ANNEALED'], [2]],
    [['304', '304-ANNEALED'], [2]],
  ],
};

/** BAC5300 as an extrusion house publishes it for thin sheet; the loosest of the charts for 6061-T6. Second-hand. */
const EXTRACT: Chart = {
  source: 'extract of BAC5300, second-hand',
  unit: 'inches',
  thicknesses: [0.016, 0.02, 0.025, 0.032],
  rows: [
    [
      ['5052-O', '6061-O'],
      [0.03, 0.03, 0.03, 0.03],
    ],
    [
      ['2024-O', '6061-T4'],
      [0.03, 0.03, 0.06, 0.06],
    ],
    [
      ['7075-O', '7178-O'],
      [0.03, 0.03, 0.06, 0.06],
    ],
    [
      ['2024-T3', '2024-T4', '6061-T6'],
      [0.06, 0.06, 0.09, 0.12],
    ],
    [['7075-T6'], [0.09, 0.09, 0.12, 0.16]],
  ],
};

const BY_NAME: Readonly<Record<ChartName, Chart>> = {
  handbook: HANDBOOK,
  advisory: ADVISORY,
  association: ASSOCIATION,
  practice: PRACTICE,
  extract: EXTRACT,
};

/** A sheet this much thicker than a column's heading still belongs to it: .0403 (18 gauge) is the chart's .040. */
const SAME_GAUGE = 1.03;

export interface MinimumRadius {
  /** Inches. */
  readonly radius: number;
  /** Lower end of the chart's range, where it prints one. */
  readonly low: number;
  readonly source: string;
}

/**
 * The chart's radius; between two thicknesses the next thicker column holds.
 * @param thickness inches
 * @param chart     which chart; without one, the first of CHARTS that lists the material
 * @throws InputError where the temper is missing; NotListedError where no chart has the material or the thickness
 */
export const minimumBendRadius = (material: string, thickness: number, chart?: ChartName): MinimumRadius =>
  radii(material)(chart)(thickness);

/** Kept by material, chart and thickness: a column of bends has few of each. */
const radii = memoized((material: string) =>
  memoized((chart: ChartName | undefined) => memoized((thickness: number) => chartRadius(material, thickness, chart))),
);

function chartRadius(material: string, thickness: number, chart: ChartName | undefined): MinimumRadius {
  const listings = listed(material)(chart);
  if (!listings.length) {
    const tempers = listedTempers(canonical(material), chart);
    const guess = tempers.length
      ? `Listed are ${tempers.join(', ')}`
      : 'For other metal ask the maker for the bend radius';
    throw new NotListedError(
      'material',
      material,
      `an alloy with its temper that ${chart ? 'this chart' : 'a chart'} lists, such as "6061-T6" or "2024-T3"`,
      guess,
    );
  }
  for (const { radii, lows, thicknesses, unit, source } of listings) {
    const place = thicknesses.findIndex((column) => thickness <= column * SAME_GAUGE);
    const figure = radii[place];
    if (figure === undefined) continue;
    const times = unit === 'inches' ? 1 : thickness;
    return { radius: figure * times, low: (lows[place] ?? figure) * times, source };
  }
  const thickest = Math.max(...listings.flatMap(({ thicknesses }) => thicknesses));
  throw new NotListedError(
    'thickness',
    `${Number(thickness.toPrecision(4))} in`,
    `inches up to ${thickest}, which is as far as the charts go for this metal`,
  );
}

export interface RadiusSpread {
  readonly least: MinimumRadius;
  readonly greatest: MinimumRadius;
}

/** Kept by material and thickness: most charts lack a metal, and what says so for each takes long in a column of bends. */
const spreads = memoized((material: string) =>
  memoized((thickness: number): { readonly spread: RadiusSpread | undefined } => {
    const all = CHARTS.flatMap((chart) => ifListed(() => minimumBendRadius(material, thickness, chart)) ?? []).sort(
      (a, b) => a.radius - b.radius,
    );
    const [least, greatest] = [all[0], all[all.length - 1]];
    return { spread: least && greatest && greatest.radius > least.radius ? { least, greatest } : undefined };
  }),
);

/** The smallest and the greatest of the radii that the charts list; undefined where one alone lists the metal, or they agree. */
const radiusSpread = (material: string, thickness: number): RadiusSpread | undefined =>
  spreads(material)(thickness).spread;

/** The lines of one chart, or of all in the order of CHARTS, that list a material. */
const listed = memoized((material: string) => {
  const wanted = canonical(material);
  return memoized((chart: ChartName | undefined) =>
    (chart ? [chart] : CHARTS).flatMap((name) => {
      const { rows, ...of } = BY_NAME[name];
      const row = rows.find(([materials]) => materials.includes(wanted));
      return row ? [{ ...of, radii: row[1], lows: row[2] ?? row[1] }] : [];
    }),
  );
});

/** Words that say what a metal is and choose no line of a chart. */
const NOISE =
  /\b(?:ALCLAD|CLAD|BARE|AA|AISI|SAE|UNS|ALUMIN(?:I)?UM|ALLOY|TYPE|STEEL|STAINLESS|CHROMOLY|SHEET|COND(?:ITION)?\.?)(?=[\s-]|$)/g;
/** What is written behind a designation, in the form of the charts; also the condition letters of steels. */
const CONDITIONS: Readonly<Record<string, string>> = { '0': 'O', NORMALIZED: 'N', NORMALISED: 'N', SOFT: 'O' };
const STEEL_CONDITIONS: Readonly<Record<string, string>> = { A: 'ANNEALED', ANN: 'ANNEALED', O: 'ANNEALED' };

/** "Alclad 2024-t3", "2024-0", "2024 T3", "2024T3" and "4130N" in the form of the charts. */
function canonical(material: string): string {
  const plain = material.trim().toUpperCase().replace(NOISE, ' ').replace(/\s+/g, ' ').trim();
  const match = /^(\d{3,4}|[A-Z]+\d{4})(?:[ -]*([A-Z]\w*)|[ -]+(0))$/.exec(plain);
  if (!match) return plain;
  const [, alloy, letters, nought] = match;
  const written = letters ?? nought!;
  const temper = (CONDITIONS[written] ?? written).replace(/^(T[346])51\d?$/, '$1');
  return `${alloy}-${isSteel(alloy!) ? (STEEL_CONDITIONS[temper] ?? temper) : temper}`;
}

const isSteel = (alloy: string): boolean => PRACTICE.rows.some(([materials]) => materials.includes(alloy));

/** Tempers of the same alloy in the chart or charts. */
function listedTempers(wanted: string, chart: ChartName | undefined): string[] {
  const alloy = wanted.split('-')[0]!;
  const all = (chart ? [chart] : CHARTS).flatMap((name) => BY_NAME[name].rows.flatMap(([materials]) => materials));
  return [...new Set(all.filter((material) => material.split('-')[0] === alloy))].sort();
}

// Findings on one bend, each with its rule.

/** A bend as it is drawn. Lengths in inches, since the charts are. */
export interface DrawnBend {
  /** The shorter side beside the bend, by its outside dimension. */
  readonly leg: number;
  readonly thickness: number;
  readonly radius: number;
  /** Degrees, turned from flat. */
  readonly angle: number;
  /** Alloy with its temper. */
  readonly material: string;
}

/** The unit in which findings write lengths. */
export interface ShownUnit {
  /** Of it in an inch. */
  readonly factor: number;
  readonly sign: string;
}

const INCHES: ShownUnit = { factor: 1, sign: 'in' };

/** Kept by unit, material and thickness, as the spread itself is: a column of bends has few of them. */
const spreadTexts = memoized((unit: ShownUnit) =>
  memoized((material: string) =>
    memoized((thickness: number): string => {
      const spread = radiusSpread(material, thickness);
      if (!spread) {
        const { radius, source } = minimumBendRadius(material, thickness);
        return `${shownIn(radius, unit)} (${source}), and no other chart says otherwise`;
      }
      const { least, greatest } = spread;
      return `the charts go from ${shownIn(least.radius, unit)} (${least.source}) to ${shownIn(greatest.radius, unit)} (${greatest.source}): bend a test piece`;
    }),
  ),
);

/** The spread of the charts in words: "the charts go from 0.032 in (…) to 0.12 in (…): bend a test piece". */
export const spreadText = (material: string, thickness: number, unit: ShownUnit): string =>
  spreadTexts(unit)(material)(thickness);

const shownIn = (inches: number, { factor, sign }: ShownUnit): string =>
  `${Number((inches * factor).toPrecision(4))} ${sign}`;

/**
 * "ok" (with the spread of the charts behind it where one of them asks for more), or the findings joined by semicolons.
 * The minimum is that of BEND.MINRADIUS: where a chart prints a range its upper end, since the lower one asks for the best
 * tools and metal. So a radius within the range is a finding too, which says that it is within. A metal that no chart
 * lists is a finding, not an error.
 */
export function checkBend({ leg, thickness, radius, angle, material }: DrawnBend, unit: ShownUnit = INCHES): string {
  const shown = (inches: number): string => shownIn(inches, unit);
  let note: string | undefined;
  const findings: string[] = [];
  const needed = setback(radius, thickness, angle);
  if (leg < needed * (1 - 1e-12)) {
    const rule = angle === 90 ? 'radius + thickness' : '(radius + thickness) × tan(angle / 2)';
    findings.push(`leg ${shown(leg)} is shorter than ${shown(needed)}, the setback ${rule} (FAA-H-8083-31 chapter 4)`);
  }
  const listed = ifListed(() => minimumBendRadius(material, thickness));
  if (listed) {
    const { radius: least, low, source } = listed;
    const spread = radiusSpread(material, thickness);
    const said = spread && radius < spread.greatest.radius * (1 - 1e-12) && spreadText(material, thickness, unit);
    if (radius < least * (1 - 1e-12)) {
      const fault =
        radius < low * (1 - 1e-12)
          ? `is under the minimum ${shown(least)} (${source})`
          : `is in the range ${shown(low)} to ${shown(least)} of ${source.split(',')[0]}, under its upper end`;
      findings.push(`radius ${shown(radius)} ${fault}${said ? `; ${said}` : ''}`);
    } else if (said) note = said;
  } else {
    findings.push(
      `no minimum radius is listed for ${material} of ${shown(thickness)}: ask the maker and bend a test piece`,
    );
  }
  if (findings.length) return findings.join('; ');
  return note ? `ok; ${note}` : 'ok';
}
