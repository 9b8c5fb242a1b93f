/** Rivets, by hand. */
import {
  checkRivet,
  findingsText,
  pickRivet,
  rivet as readRivet,
  rivetHole,
  rivetDrill,
  rivetShear,
  rivetsPerPound,
  rivetWeight,
  SOLID_SIZES,
  type RivetStyle,
} from '../../../src/core/fastener';
import { densityOf, material } from '../../../src/core/material';
import type { Matrix } from '../../../src/sheet';
import {
  among,
  between,
  isCount,
  isLength,
  isLengthOrZero,
  isQuantity,
  isThickness,
  lookUp,
  METALS,
  or,
  otherwise,
  PIECES,
  RIVETS,
  whole,
  type Job,
} from './cells';

const DIAMETERS = among(0.09375, 0.125, 0.15625, '1/8');
const GRIPS = between(0.05, 0.12);
const RUNS = between(10, 90);
const EDGES = between(0.25, 0.5);
const HEADS: Readonly<Record<string, string>> = { universal: 'MS20470AD', flush: 'MS20426AD' };

/** A diameter as a number or a fraction: the fractions of a column are few. */
function diameters(): (cell: unknown) => number | undefined {
  const written = lookUp((text) => {
    const [top, bottom] = text.split('/').map(Number);
    return top! / bottom!;
  });
  return (cell) => (typeof cell === 'number' ? (cell > 0 && cell < 1 ? cell : undefined) : written(cell as string));
}

export const rivets: Readonly<Record<string, Job>> = {
  'RIVET.COUNT': {
    columns: [RUNS, among(0.75, 1, 1.25), EDGES, whole(1, 3)],
    loop(runs, pitches, edges, lines) {
      const out: Matrix = new Array(runs.length);
      for (let r = 0; r < runs.length; r++) {
        const run = runs[r]![0];
        const pitch = pitches[r]![0];
        const edge = or(edges[r]![0], 0);
        const rows = or(lines[r]![0], 1);
        if (isLength(run) && isLength(pitch) && isLengthOrZero(edge) && isCount(rows) && run >= 2 * edge) {
          out[r] = [(Math.floor((run - 2 * edge) / pitch + 1e-9) + 1) * rows];
        } else out[r] = otherwise(run);
      }
      return out;
    },
  },
  'RIVET.PITCH': {
    columns: [RUNS, whole(5, 60), EDGES],
    loop(runs, counts, edges) {
      const out: Matrix = new Array(runs.length);
      for (let r = 0; r < runs.length; r++) {
        const run = runs[r]![0];
        const count = counts[r]![0];
        const edge = or(edges[r]![0], 0);
        const isSound = isLength(run) && isCount(count) && isLengthOrZero(edge) && count >= 2 && run > 2 * edge;
        out[r] = isSound ? [(run - 2 * edge) / (count - 1)] : otherwise(run);
      }
      return out;
    },
  },
  'RIVET.LENGTH': {
    columns: [GRIPS, DIAMETERS],
    loop(grips, written) {
      const out: Matrix = new Array(grips.length);
      const diameterOf = diameters();
      for (let r = 0; r < grips.length; r++) {
        const grip = grips[r]![0];
        const diameter = diameterOf(written[r]![0]);
        out[r] =
          typeof grip === 'number' && grip > 0 && grip <= 4 && diameter !== undefined
            ? [grip + 1.5 * diameter]
            : otherwise(grip);
      }
      return out;
    },
  },
  'RIVET.PICK': {
    columns: [among('universal', 'flush', 'blind'), DIAMETERS, GRIPS],
    loop(styles, written, grips) {
      const out: Matrix = new Array(grips.length);
      const diameterOf = diameters();
      for (let r = 0; r < grips.length; r++) {
        const style = styles[r]![0];
        const diameter = diameterOf(written[r]![0]);
        const grip = grips[r]![0];
        if (!(typeof style === 'string' && typeof grip === 'number' && grip > 0 && grip <= 4 && diameter !== undefined))
          out[r] = otherwise(grip);
        else {
          const head = HEADS[style];
          const dash = Math.round(diameter * 32);
          const length = Math.max(2, Math.round((grip + (1.5 * dash) / 32) * 16));
          if (head !== undefined && dash >= 2 && dash <= 6 && length <= 32 && Math.abs(dash / 32 - diameter) <= 0.004)
            out[r] = [`${head}${dash}-${length}`];
          else out[r] = [pickRivet(style as RivetStyle, diameter, grip).designation];
        }
      }
      return out;
    },
  },
  'RIVET.WEIGHT': {
    columns: [RIVETS, PIECES],
    loop(names, quantities) {
      const out: Matrix = new Array(names.length);
      const weightOf = lookUp((name) => rivetWeight(readRivet(name)));
      for (let r = 0; r < names.length; r++) {
        const weight = weightOf(names[r]![0]);
        const quantity = or(quantities[r]![0], 1);
        out[r] = weight !== undefined && isQuantity(quantity) ? [quantity * weight] : otherwise(names[r]![0]);
      }
      return out;
    },
  },
  'RIVET.PERPOUND': {
    columns: [RIVETS],
    loop(names) {
      const out: Matrix = new Array(names.length);
      const piecesOf = lookUp((name) => rivetsPerPound(readRivet(name)));
      for (let r = 0; r < names.length; r++) {
        const pieces = piecesOf(names[r]![0]);
        out[r] = pieces === undefined ? otherwise(names[r]![0]) : [pieces];
      }
      return out;
    },
  },
  'RIVET.HOLE': {
    columns: [RIVETS],
    loop(names) {
      const out: Matrix = new Array(names.length);
      const holeOf = lookUp((name) => rivetHole(readRivet(name)));
      for (let r = 0; r < names.length; r++) {
        const hole = holeOf(names[r]![0]);
        out[r] = hole === undefined ? otherwise(names[r]![0]) : [hole];
      }
      return out;
    },
  },
  'RIVET.DRILL': {
    columns: [RIVETS],
    loop(names) {
      const out: Matrix = new Array(names.length);
      const drillOf = lookUp((name) => rivetDrill(readRivet(name)));
      for (let r = 0; r < names.length; r++) {
        const drill = drillOf(names[r]![0]);
        out[r] = drill === undefined ? otherwise(names[r]![0]) : [drill];
      }
      return out;
    },
  },
  'RIVET.SHEAR': {
    columns: [RIVETS],
    loop(names) {
      const out: Matrix = new Array(names.length);
      const shearOf = lookUp((name) => rivetShear(readRivet(name)));
      for (let r = 0; r < names.length; r++) {
        const shear = shearOf(names[r]![0]);
        out[r] = shear === undefined ? otherwise(names[r]![0]) : [shear];
      }
      return out;
    },
  },
  'RIVET.HOLEMETAL': {
    columns: [RIVETS, GRIPS, METALS, PIECES],
    loop(names, grips, metals, quantities) {
      const out: Matrix = new Array(names.length);
      const holeOf = lookUp((name) => rivetHole(readRivet(name)));
      const densityIn = lookUp((name) => densityOf(material(name)));
      for (let r = 0; r < names.length; r++) {
        const hole = holeOf(names[r]![0]);
        const grip = grips[r]![0];
        const density = densityIn(metals[r]![0]);
        const quantity = or(quantities[r]![0], 1);
        if (
          hole !== undefined &&
          typeof grip === 'number' &&
          grip > 0 &&
          grip <= 4 &&
          density !== undefined &&
          isQuantity(quantity)
        ) {
          out[r] = [quantity * ((Math.PI * hole * hole) / 4) * grip * density];
        } else out[r] = otherwise(names[r]![0]);
      }
      return out;
    },
  },
  'RIVET.HOURS': {
    columns: [whole(5, 400), among(1, 1.5, 2)],
    loop(counts, minutes) {
      const out: Matrix = new Array(counts.length);
      for (let r = 0; r < counts.length; r++) {
        const count = counts[r]![0];
        const each = or(minutes[r]![0], 1.5);
        out[r] =
          isQuantity(count) && typeof each === 'number' && each >= 0 && each <= 120
            ? [(count * each) / 60]
            : otherwise(count);
      }
      return out;
    },
  },
  'RIVET.CHECK': {
    columns: [
      among('MS20470AD4-4', 'MS20470AD4-5', 'MS20426AD4-4'),
      between(0.06, 0.08),
      among(0.032, 0.04),
      between(0.5, 1.4),
      between(0.32, 0.48),
    ],
    // eslint-disable-next-line complexity -- written by hand as a builder would, in one piece
    loop(names, grips, sheets, pitches, edges) {
      const out: Matrix = new Array(names.length);
      const rivetOf = lookUp((name) => {
        const rivet = readRivet(name);
        const size = SOLID_SIZES.find(({ dash }) => dash === rivet.dash);
        return {
          rivet,
          least:
            rivet.style === 'flush' && size ? (size.flushHead - size.shank) / (2 * Math.tan((50 * Math.PI) / 180)) : 0,
        };
      });
      for (let r = 0; r < names.length; r++) {
        const known = rivetOf(names[r]![0]);
        const grip = grips[r]![0];
        const sheet = sheets[r]![0];
        const pitch = pitches[r]![0];
        const edge = edges[r]![0];
        if (!(
          known &&
          typeof grip === 'number' &&
          grip > 0 &&
          grip <= 4 &&
          isThickness(sheet) &&
          isLength(pitch) &&
          isLengthOrZero(edge)
        ))
          out[r] = otherwise(names[r]![0]);
        else {
          const { rivet, least } = known;
          const d = rivet.nominal;
          const needed = grip + 1.5 * d;
          const isSpaced =
            edge >= (rivet.style === 'flush' ? 2.5 : 2) * d - 0.0005 &&
            edge <= 4 * d + 0.0005 &&
            pitch >= 3 * d - 0.0005 &&
            pitch <= 12 * d + 0.0005;
          const isSized =
            rivet.dash >= 3 &&
            d >= 3 * sheet - 1 / 64 - 0.0005 &&
            grip >= least - 0.0005 &&
            (rivet.length ?? 0) >= needed - 1 / 32 - 0.0005 &&
            (rivet.length ?? 0) <= needed + 1 / 16 + 0.0005;
          if (rivet.kind === 'solid' && isSpaced && isSized) out[r] = ['ok'];
          else out[r] = [findingsText(checkRivet({ rivet, grip, thickestSheet: sheet, pitch, edge }))];
        }
      }
      return out;
    },
  },
};
