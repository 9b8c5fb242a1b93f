/** Areas, airfoils, bends and flat patterns, by hand. */
import { checkBend, minimumBendRadius, nacaOutline } from '../../../src/core/geometry';
import type { Matrix } from '../../../src/sheet';
import {
  among,
  between,
  isAngle,
  isLength,
  isLengthOrZero,
  isQuantity,
  isThickness,
  lookUp,
  or,
  otherwise,
  PIECES,
  type Job,
} from './cells';

const SHEETS = among(0.02, 0.025, 0.032, 0.04, 0.05, 0.063);
const RADII = among(0.09, 0.125, 0.16, 0.19);
const SECTIONS = among('2412', '23012', '4415', '0012 closed');
const CHORDS = between(20, 60);
const [LONG, MIDDLE, SHORT] = [between(2, 90), between(2, 40), between(0.5, 2)];
const ANGLES = among(90, 45, 60, 90.5);

const radians = (degrees: number): number => (degrees * Math.PI) / 180;
const allowance = (radius: number, thickness: number, angle: number): number =>
  (0.01743 * radius + 0.0078 * thickness) * angle;
const setback = (radius: number, thickness: number, angle: number): number =>
  Math.tan(radians(angle) / 2) * (radius + thickness);

export const shapes: Readonly<Record<string, Job>> = {
  'AREA.RECT': {
    columns: [LONG, MIDDLE],
    loop(lengths, widths) {
      const out: Matrix = new Array(lengths.length);
      for (let r = 0; r < lengths.length; r++) {
        const length = lengths[r]![0];
        const width = widths[r]![0];
        out[r] = isLength(length) && isLength(width) ? [length * width] : otherwise(length);
      }
      return out;
    },
  },
  'AREA.TRIANGLE': {
    columns: [LONG, MIDDLE],
    loop(bases, heights) {
      const out: Matrix = new Array(bases.length);
      for (let r = 0; r < bases.length; r++) {
        const base = bases[r]![0];
        const height = heights[r]![0];
        out[r] = isLength(base) && isLength(height) ? [(base * height) / 2] : otherwise(base);
      }
      return out;
    },
  },
  'AREA.TRAPEZOID': {
    columns: [MIDDLE, SHORT, LONG],
    loop(sidesA, sidesB, heights) {
      const out: Matrix = new Array(sidesA.length);
      for (let r = 0; r < sidesA.length; r++) {
        const a = sidesA[r]![0];
        const b = sidesB[r]![0];
        const height = heights[r]![0];
        out[r] = isLength(a) && isLength(b) && isLength(height) ? [((a + b) / 2) * height] : otherwise(a);
      }
      return out;
    },
  },
  'AREA.CIRCLE': {
    columns: [MIDDLE],
    loop(diameters) {
      const out: Matrix = new Array(diameters.length);
      for (let r = 0; r < diameters.length; r++) {
        const diameter = diameters[r]![0];
        out[r] = isLength(diameter) ? [(Math.PI * diameter * diameter) / 4] : otherwise(diameter);
      }
      return out;
    },
  },
  'AREA.SLOT': {
    columns: [MIDDLE, SHORT],
    loop(lengths, widths) {
      const out: Matrix = new Array(lengths.length);
      for (let r = 0; r < lengths.length; r++) {
        const length = lengths[r]![0];
        const width = widths[r]![0];
        out[r] =
          isLength(length) && isLength(width) && length >= width
            ? [(length - width) * width + (Math.PI * width * width) / 4]
            : otherwise(length);
      }
      return out;
    },
  },
  'AREA.ELLIPSE': {
    columns: [LONG, MIDDLE],
    loop(majors, minors) {
      const out: Matrix = new Array(majors.length);
      for (let r = 0; r < majors.length; r++) {
        const major = majors[r]![0];
        const minor = minors[r]![0];
        out[r] = isLength(major) && isLength(minor) ? [(Math.PI * major * minor) / 4] : otherwise(major);
      }
      return out;
    },
  },
  'AREA.HOLES': {
    columns: [MIDDLE, PIECES, between(0, 0.5)],
    loop(diameters, quantities, flanges) {
      const out: Matrix = new Array(diameters.length);
      for (let r = 0; r < diameters.length; r++) {
        const diameter = diameters[r]![0];
        const quantity = or(quantities[r]![0], 1);
        const flange = or(flanges[r]![0], 0);
        if (isLength(diameter) && isQuantity(quantity) && isLengthOrZero(flange) && diameter >= 2 * flange) {
          const cut = diameter - 2 * flange;
          out[r] = [(quantity * Math.PI * cut * cut) / 4];
        } else out[r] = otherwise(diameter);
      }
      return out;
    },
  },
  'AIRFOIL.AREA': {
    columns: [SECTIONS, CHORDS],
    loop(sections, chords) {
      const out: Matrix = new Array(sections.length);
      const areaOf = lookUp((name) => nacaOutline(name).area());
      for (let r = 0; r < sections.length; r++) {
        const area = areaOf(sections[r]![0]);
        const chord = chords[r]![0];
        out[r] = area !== undefined && isLength(chord) ? [area * chord * chord] : otherwise(chord);
      }
      return out;
    },
  },
  'AIRFOIL.GIRTH': {
    columns: [SECTIONS, CHORDS],
    loop(sections, chords) {
      const out: Matrix = new Array(sections.length);
      const girthOf = lookUp((name) => nacaOutline(name).girth());
      for (let r = 0; r < sections.length; r++) {
        const girth = girthOf(sections[r]![0]);
        const chord = chords[r]![0];
        out[r] = girth !== undefined && isLength(chord) ? [girth * chord] : otherwise(chord);
      }
      return out;
    },
  },
  'AIRFOIL.HEIGHT': {
    columns: [SECTIONS, CHORDS, among(0.15, 0.3, 0.7)],
    loop(sections, chords, places) {
      const out: Matrix = new Array(sections.length);
      const outlineOf = lookUp((name) => nacaOutline(name));
      for (let r = 0; r < sections.length; r++) {
        const outline = outlineOf(sections[r]![0]);
        const chord = chords[r]![0];
        const at = places[r]![0];
        const isSound = outline && isLength(chord) && typeof at === 'number' && at >= 0 && at <= 1;
        out[r] = isSound ? [outline.height(at) * chord] : otherwise(chord);
      }
      return out;
    },
  },
  'BEND.ALLOWANCE': {
    columns: [RADII, SHEETS, ANGLES],
    loop(radii, sheets, angles) {
      const out: Matrix = new Array(radii.length);
      for (let r = 0; r < radii.length; r++) {
        const radius = radii[r]![0];
        const sheet = sheets[r]![0];
        const angle = or(angles[r]![0], 90);
        out[r] =
          isLengthOrZero(radius) && isThickness(sheet) && isAngle(angle)
            ? [allowance(radius, sheet, angle)]
            : otherwise(sheet);
      }
      return out;
    },
  },
  'BEND.SETBACK': {
    columns: [RADII, SHEETS, ANGLES],
    loop(radii, sheets, angles) {
      const out: Matrix = new Array(radii.length);
      for (let r = 0; r < radii.length; r++) {
        const radius = radii[r]![0];
        const sheet = sheets[r]![0];
        const angle = or(angles[r]![0], 90);
        out[r] =
          isLengthOrZero(radius) && isThickness(sheet) && isAngle(angle)
            ? [setback(radius, sheet, angle)]
            : otherwise(sheet);
      }
      return out;
    },
  },
  'BEND.DEDUCTION': {
    columns: [RADII, SHEETS, ANGLES],
    loop(radii, sheets, angles) {
      const out: Matrix = new Array(radii.length);
      for (let r = 0; r < radii.length; r++) {
        const radius = radii[r]![0];
        const sheet = sheets[r]![0];
        const angle = or(angles[r]![0], 90);
        if (isLengthOrZero(radius) && isThickness(sheet) && isAngle(angle))
          out[r] = [2 * setback(radius, sheet, angle) - allowance(radius, sheet, angle)];
        else out[r] = otherwise(sheet);
      }
      return out;
    },
  },
  'BEND.MINRADIUS': {
    columns: [among('2024-T3', '6061-T6', '7075-T6'), SHEETS],
    loop(metals, sheets) {
      const out: Matrix = new Array(metals.length);
      // The chart's line of a metal, read once: a radius for each thickness that the column has.
      const lineOf = lookUp((metal) => CHART_THICKNESSES.map((listed) => minimumBendRadius(metal, listed).radius));
      for (let r = 0; r < metals.length; r++) {
        const line = lineOf(metals[r]![0]);
        const sheet = sheets[r]![0];
        const radius =
          line && isThickness(sheet)
            ? line[CHART_THICKNESSES.findIndex((listed) => sheet <= listed * 1.03)]
            : undefined;
        out[r] = radius === undefined ? otherwise(sheet) : [radius];
      }
      return out;
    },
  },
  'BEND.CHECK': {
    columns: [between(0.4, 2), SHEETS, among(0.19, 0.25, 0.31), among('2024-T3', '6061-T6')],
    loop(legs, sheets, radii, metals) {
      const out: Matrix = new Array(legs.length);
      const lineOf = lookUp((metal) => CHART_THICKNESSES.map((listed) => minimumBendRadius(metal, listed).radius));
      for (let r = 0; r < legs.length; r++) {
        const leg = legs[r]![0];
        const sheet = sheets[r]![0];
        const radius = radii[r]![0];
        const metal = metals[r]![0];
        if (!(isLength(leg) && isThickness(sheet) && isLengthOrZero(radius) && typeof metal === 'string'))
          out[r] = otherwise(leg);
        else {
          const least = lineOf(metal)?.[CHART_THICKNESSES.findIndex((listed) => sheet <= listed * 1.03)];
          if (least !== undefined && radius >= least && leg >= setback(radius, sheet, 90)) out[r] = ['ok'];
          else out[r] = [checkBend({ leg, thickness: sheet, radius, angle: 90, material: metal })];
        }
      }
      return out;
    },
  },
  'FLAT.ANGLE': {
    columns: [SHORT, SHORT, SHEETS, RADII, ANGLES],
    loop(legsA, legsB, sheets, radii, angles) {
      const out: Matrix = new Array(legsA.length);
      for (let r = 0; r < legsA.length; r++) {
        const a = legsA[r]![0];
        const b = legsB[r]![0];
        const sheet = sheets[r]![0];
        const radius = radii[r]![0];
        const angle = or(angles[r]![0], 90);
        if (isLength(a) && isLength(b) && isThickness(sheet) && isLengthOrZero(radius) && isAngle(angle)) {
          const back = setback(radius, sheet, angle);
          out[r] = a >= back && b >= back ? [a + b - 2 * back + allowance(radius, sheet, angle)] : ['#VALUE!'];
        } else out[r] = otherwise(a);
      }
      return out;
    },
  },
  'FLAT.CHANNEL': { columns: [MIDDLE, SHORT, SHORT, SHEETS, RADII], loop: twoBends },
  'FLAT.ZEE': { columns: [MIDDLE, SHORT, SHORT, SHEETS, RADII], loop: twoBends },
  'FLAT.HAT': {
    columns: [MIDDLE, between(0.75, 2), SHORT, SHEETS, RADII],
    loop(crowns, sides, feet, sheets, radii) {
      const out: Matrix = new Array(crowns.length);
      for (let r = 0; r < crowns.length; r++) {
        const crown = crowns[r]![0];
        const side = sides[r]![0];
        const foot = feet[r]![0];
        const sheet = sheets[r]![0];
        const radius = radii[r]![0];
        if (isLength(crown) && isLength(side) && isLength(foot) && isThickness(sheet) && isLengthOrZero(radius)) {
          const back = radius + sheet;
          const fits = crown >= 2 * back && side >= 2 * back && foot >= back;
          out[r] = fits ? [crown + 2 * side + 2 * foot - 8 * back + 4 * allowance(radius, sheet, 90)] : ['#VALUE!'];
        } else out[r] = otherwise(crown);
      }
      return out;
    },
  },
};

/** Columns of the handbook's chart of bend radii, inches. */
const CHART_THICKNESSES = [
  0.012, 0.016, 0.02, 0.025, 0.032, 0.04, 0.05, 0.063, 0.071, 0.08, 0.09, 0.1, 0.125, 0.16, 0.19, 0.25,
];

/** Channel and zee: a web and two legs, bent square. */
function twoBends(webs: Matrix, legsA: Matrix, legsB: Matrix, sheets: Matrix, radii: Matrix): Matrix {
  const out: Matrix = new Array(webs.length);
  for (let r = 0; r < webs.length; r++) {
    const web = webs[r]![0];
    const a = legsA[r]![0];
    const b = legsB[r]![0];
    const sheet = sheets[r]![0];
    const radius = radii[r]![0];
    if (isLength(web) && isLength(a) && isLength(b) && isThickness(sheet) && isLengthOrZero(radius)) {
      const back = radius + sheet;
      out[r] =
        web >= 2 * back && a >= back && b >= back
          ? [web + a + b - 4 * back + 2 * allowance(radius, sheet, 90)]
          : ['#VALUE!'];
    } else out[r] = otherwise(web);
  }
  return out;
}
