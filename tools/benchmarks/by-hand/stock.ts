/** Material, prices and single weights, by hand. */
import Decimal from 'decimal.js';
import { GROWTH_ALLOWANCES } from '../../../src/core/mass';
import { densityOf, gaugeName, gaugeThickness, material, parseGauge } from '../../../src/core/material';
import { openPriceBook, priceEach, readPriceList, type PricedItem } from '../../../src/core/price';
import { CellError, type Matrix } from '../../../src/sheet';
import {
  among,
  between,
  isArea,
  isLength,
  isQuantity,
  isStation,
  isThickness,
  isWeight,
  lookUp,
  METALS,
  or,
  otherwise,
  PIECES,
  type Job,
} from './cells';

const SHEETS = among(0.02, 0.025, 0.032, 0.04, 0.05, 0.063);
const LENGTHS = between(2, 90);
const AREAS = between(2, 900);

const densities = (): ReturnType<typeof lookUp<number>> => lookUp((name) => densityOf(material(name)));

const GAUGES = Array.from({ length: 44 }, (_, index) => gaugeThickness(index - 3));

/** Greatest thickness of each step, and its ± tolerance, inches. */
const TOLERANCES = [
  [0.028, 0.0025],
  [0.036, 0.0025],
  [0.045, 0.003],
  [0.068, 0.004],
  [0.076, 0.004],
  [0.096, 0.004],
  [0.108, 0.005],
  [0.125, 0.005],
] as const;

const LIST: Matrix = [
  ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency', 'From'],
  ['Skin .025', 'sheet', 'sheet', '48 x 144', 103.68, 'USD', 0],
  ['Skin .025', 'sheet', 'sheet', '48 x 144', 82.08, 'USD', 5],
  ['Angle 3/4', 'bar', 'each', '12 ft', 21.6, 'USD', ''],
  ['Bolt AN3-5', 'other', '100', '', 48, 'USD', ''],
];
const ITEMS = among('Skin .025', 'Angle 3/4', 'Bolt AN3-5', 'skin .025');

/** The price list opened, as both loops over it do first. */
function bookOf(list: Matrix): (item: string) => PricedItem {
  const book = openPriceBook(
    readPriceList(list.map((row) => row.map((cell) => (cell instanceof CellError ? cell.code : cell)))),
  );
  return (item) => book.find(item);
}

export const stock: Readonly<Record<string, Job>> = {
  'GAUGE.THICKNESS': {
    columns: [among(16, 18, 20, 22, '1/0', '4/0')],
    loop(gauges) {
      const out: Matrix = new Array(gauges.length);
      const numberOf = lookUp((text) => parseGauge(text));
      for (let r = 0; r < gauges.length; r++) {
        const gauge = gauges[r]![0];
        const thickness = GAUGES[(typeof gauge === 'number' ? gauge : (numberOf(gauge) ?? NaN)) + 3];
        out[r] = thickness === undefined ? otherwise(gauge) : [thickness];
      }
      return out;
    },
  },
  'GAUGE.NEAREST': {
    columns: [between(0.01, 0.3)],
    loop(sheets) {
      const out: Matrix = new Array(sheets.length);
      const names = GAUGES.map((_, index) => (index > 3 ? index - 3 : gaugeName(index - 3)));
      for (let r = 0; r < sheets.length; r++) {
        const sheet = sheets[r]![0];
        if (isThickness(sheet) && sheet >= 0.0029 && sheet <= 0.4876) {
          // The gauges are a geometric row: the step is found by a logarithm, and the printed figures beside it compared.
          let best = Math.max(0, Math.round(39 - (39 * Math.log(sheet / 0.005)) / Math.log(92)) - 1);
          while (best + 1 < GAUGES.length && Math.abs(GAUGES[best + 1]! - sheet) < Math.abs(GAUGES[best]! - sheet))
            best++;
          out[r] = [names[best]!];
        } else out[r] = otherwise(sheet);
      }
      return out;
    },
  },
  'MATERIAL.DENSITY': {
    columns: [METALS],
    loop(metals) {
      const out: Matrix = new Array(metals.length);
      const densityIn = densities();
      for (let r = 0; r < metals.length; r++) {
        const density = densityIn(metals[r]![0]);
        out[r] = density === undefined ? otherwise(metals[r]![0]) : [density];
      }
      return out;
    },
  },
  'WEIGHT.SHEET': {
    columns: [AREAS, SHEETS, METALS, PIECES],
    loop(areas, sheets, metals, quantities) {
      const out: Matrix = new Array(areas.length);
      const densityIn = densities();
      for (let r = 0; r < areas.length; r++) {
        const area = areas[r]![0];
        const sheet = sheets[r]![0];
        const density = densityIn(metals[r]![0]);
        const quantity = or(quantities[r]![0], 1);
        if (isArea(area) && isThickness(sheet) && density !== undefined && isQuantity(quantity))
          out[r] = [area * sheet * density * quantity];
        else out[r] = otherwise(area);
      }
      return out;
    },
  },
  'WEIGHT.TUBE': {
    columns: [among(0.5, 0.625, 0.75, 1), among(0.028, 0.035, 0.049), LENGTHS, METALS, PIECES],
    loop(diameters, walls, lengths, metals, quantities) {
      const out: Matrix = new Array(diameters.length);
      const densityIn = densities();
      for (let r = 0; r < diameters.length; r++) {
        const diameter = diameters[r]![0];
        const wall = walls[r]![0];
        const length = lengths[r]![0];
        const density = densityIn(metals[r]![0]);
        const quantity = or(quantities[r]![0], 1);
        if (
          isLength(diameter) &&
          isThickness(wall) &&
          isLength(length) &&
          density !== undefined &&
          isQuantity(quantity) &&
          wall < diameter / 2
        ) {
          out[r] = [Math.PI * wall * (diameter - wall) * length * density * quantity];
        } else out[r] = otherwise(diameter);
      }
      return out;
    },
  },
  'WEIGHT.BAR': {
    columns: [among(0.125, 0.1875, 0.25), LENGTHS, METALS, PIECES],
    loop(diameters, lengths, metals, quantities) {
      const out: Matrix = new Array(diameters.length);
      const densityIn = densities();
      for (let r = 0; r < diameters.length; r++) {
        const diameter = diameters[r]![0];
        const length = lengths[r]![0];
        const density = densityIn(metals[r]![0]);
        const quantity = or(quantities[r]![0], 1);
        if (isLength(diameter) && isLength(length) && density !== undefined && isQuantity(quantity)) {
          out[r] = [((Math.PI * diameter * diameter) / 4) * length * density * quantity];
        } else out[r] = otherwise(diameter);
      }
      return out;
    },
  },
  'WEIGHT.SECTION': {
    columns: [between(0.05, 0.5), LENGTHS, METALS, PIECES],
    loop(sections, lengths, metals, quantities) {
      const out: Matrix = new Array(sections.length);
      const densityIn = densities();
      for (let r = 0; r < sections.length; r++) {
        const section = sections[r]![0];
        const length = lengths[r]![0];
        const density = densityIn(metals[r]![0]);
        const quantity = or(quantities[r]![0], 1);
        if (isArea(section) && isLength(length) && density !== undefined && isQuantity(quantity))
          out[r] = [section * length * density * quantity];
        else out[r] = otherwise(section);
      }
      return out;
    },
  },
  'WEIGHT.VOLUME': {
    columns: [between(0.2, 12), METALS, PIECES],
    loop(volumes, metals, quantities) {
      const out: Matrix = new Array(volumes.length);
      const densityIn = densities();
      for (let r = 0; r < volumes.length; r++) {
        const volume = volumes[r]![0];
        const density = densityIn(metals[r]![0]);
        const quantity = or(quantities[r]![0], 1);
        if (isArea(volume) && density !== undefined && isQuantity(quantity)) out[r] = [volume * density * quantity];
        else out[r] = otherwise(volume);
      }
      return out;
    },
  },
  'WEIGHT.PERAREA': {
    columns: [SHEETS, METALS],
    loop(sheets, metals) {
      const out: Matrix = new Array(sheets.length);
      const densityIn = densities();
      for (let r = 0; r < sheets.length; r++) {
        const sheet = sheets[r]![0];
        const density = densityIn(metals[r]![0]);
        out[r] = isThickness(sheet) && density !== undefined ? [sheet * density * 144] : otherwise(sheet);
      }
      return out;
    },
  },
  GROWTH: {
    columns: [between(0.1, 20), among('estimated', 'Laid out', 'released', 'weighed')],
    loop(weights, statuses) {
      const out: Matrix = new Array(weights.length);
      const allowanceOf = lookUp(
        (status) => GROWTH_ALLOWANCES.find((one) => one.status === status.trim().toLowerCase())?.fraction,
      );
      for (let r = 0; r < weights.length; r++) {
        const weight = weights[r]![0];
        const growth = allowanceOf(statuses[r]![0]);
        out[r] = isWeight(weight) && growth !== undefined ? [weight * (1 + growth)] : otherwise(weight);
      }
      return out;
    },
  },
  'TOLERANCE.SHEET': {
    columns: [SHEETS],
    loop(sheets) {
      const out: Matrix = new Array(sheets.length);
      for (let r = 0; r < sheets.length; r++) {
        const sheet = sheets[r]![0];
        const step =
          isThickness(sheet) && sheet >= 0.0175 ? TOLERANCES.find(([upTo]) => sheet <= upTo + 0.0005) : undefined;
        out[r] = step ? [step[1] / (sheet as number)] : otherwise(sheet);
      }
      return out;
    },
  },
  'INERTIA.PARALLEL': {
    columns: [between(0, 90), between(0.1, 20), between(-40, 40)],
    loop(inertias, weights, distances) {
      const out: Matrix = new Array(inertias.length);
      for (let r = 0; r < inertias.length; r++) {
        const inertia = inertias[r]![0];
        const weight = weights[r]![0];
        const distance = distances[r]![0];
        const isSound =
          typeof inertia === 'number' && inertia >= 0 && inertia <= 1e15 && isWeight(weight) && isStation(distance);
        out[r] = isSound ? [inertia + weight * distance * distance] : otherwise(inertia);
      }
      return out;
    },
  },
  'PRICE.EACH': {
    columns: [ITEMS, LIST],
    loop(items, list) {
      const out: Matrix = new Array(items.length);
      const find = bookOf(list);
      const priceOf = lookUp((item) => priceEach(find(item)));
      for (let r = 0; r < items.length; r++) {
        const price = priceOf(items[r]![0]);
        out[r] = price === undefined ? otherwise(items[r]![0]) : [price];
      }
      return out;
    },
  },
  'PRICE.COST': {
    columns: [ITEMS, between(1, 2000), LIST],
    loop(items, quantities, list) {
      const out: Matrix = new Array(items.length);
      const find = bookOf(list);
      const offerOf = lookUp((item) => {
        const offer = find(item).offers[0]!;
        return { price: new Decimal(offer.breaks[0]!.price), contents: offer.contents };
      });
      for (let r = 0; r < items.length; r++) {
        const offer = offerOf(items[r]![0]);
        const quantity = quantities[r]![0];
        // Money is reckoned in decimals, by hand too: binary fractions lose the cent that lies half way.
        if (offer && isQuantity(quantity))
          out[r] = [
            offer.price.times(quantity).div(offer.contents).toDecimalPlaces(2, Decimal.ROUND_HALF_UP).toNumber(),
          ];
        else out[r] = otherwise(items[r]![0]);
      }
      return out;
    },
  },
};
