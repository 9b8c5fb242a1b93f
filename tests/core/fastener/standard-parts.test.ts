import { describe, expect, it } from 'vitest';
import { nutVolume, pitchDiameter, standardPart } from '../../../src/core/fastener';

/** Grams of steel, 7.85 g/cm³, as the tables reckon. */
const grams = (mm3: number): number => mm3 * 0.00785;
const weigh = (text: string): number => grams(standardPart(text).volume * 25.4 ** 3);

describe('masses of metric hardware that others print', () => {
  // Weights in grams of plain washers DIN 125 (the dimensions of ISO 7089), a bolt maker's page: ajaxboltco.com.
  it.each([
    ['M5', 0.443],
    ['M6', 1.02],
    ['M8', 1.83],
    ['M10', 3.57],
    ['M12', 6.27],
  ])('washer %s', (size, mass) => expect(Math.abs(weigh(`ISO 7089 ${size}`) / mass - 1)).toBeLessThan(0.004));

  // GOST 5915-70 (heights and widths of ISO 4032), appendix 1: theoretical mass of 1,000 nuts, kg. Chamfers make them lighter.
  it.each([
    ['M3', 0.377],
    ['M4', 0.8],
    ['M5', 1.44],
    ['M10', 10.22],
    ['M12', 15.67],
  ])('nut %s is at most 3 %% heavier', (size, mass) => {
    const ratio = weigh(`ISO 4032 ${size}`) / mass;
    expect(ratio).toBeGreaterThan(0.99);
    expect(ratio).toBeLessThan(1.03);
  });

  // GOST 15524-70, high nuts of the same widths: height, theoretical mass of 1,000, kg. (Its 8.285 for M8 is more than
  // a nut of its own dimensions without any chamfer weighs, and is left out.)
  it.each([
    [3, 0.5, 5.5, 3.6, 0.562],
    [4, 0.7, 7, 4.8, 1.183],
    [5, 0.8, 8, 6, 1.798],
    [10, 1.5, 16, 12, 14.26],
    [12, 1.75, 18, 14, 19.03],
  ])('a high nut M%f', (diameter, pitch, flats, height, mass) => {
    const ratio = grams(nutVolume(diameter, pitch, flats, height)) / mass;
    expect(ratio).toBeGreaterThan(0.99);
    expect(ratio).toBeLessThan(1.09);
  });

  // GOST 22042-76, studs threaded all along: length, theoretical mass of 1,000, kg.
  it.each([
    [3, 0.5, 12, 0.529],
    [4, 0.7, 12, 0.93],
    [5, 0.8, 14, 1.732],
    [6, 1, 14, 2.471],
    [8, 1.25, 20, 6.371],
    [10, 1.5, 30, 15.07],
  ])('a thread M%f weighs as a cylinder of its pitch diameter', (diameter, pitch, length, mass) =>
    expect(Math.abs(grams((Math.PI / 4) * pitchDiameter(diameter, pitch) ** 2 * length) / mass - 1)).toBeLessThan(
      0.001,
    ),
  );

  // Basic pitch diameters of ISO 724; from memory, verify.
  it.each([
    [3, 0.5, 2.675],
    [4, 0.7, 3.545],
    [5, 0.8, 4.48],
    [6, 1, 5.35],
    [8, 1.25, 7.188],
    [10, 1.5, 9.026],
    [12, 1.75, 10.863],
  ])('pitch diameter of M%f', (diameter, pitch, printed) =>
    expect(pitchDiameter(diameter, pitch)).toBeCloseTo(printed, 3),
  );

  it('a bolt with a plain shank is heavier than a screw of the same length, by the thread’s grooves alone', () => {
    const bolt = weigh('ISO 4014 M6x40');
    const screw = weigh('ISO 4017 M6x40');
    // 22 mm of shank: π/4 × (36 − 5.3505²) × 22 × .00785.
    expect(bolt - screw).toBeCloseTo((Math.PI / 4) * (36 - 5.350481 ** 2) * 22 * 0.00785, 6);
  });
});

describe('designations of metric hardware', () => {
  it.each([
    ['ISO 4017 M6x20', 'ISO 4017 M6x20'],
    ['iso4017-m6×20-8.8', 'ISO 4017 M6x20'],
    ['DIN EN ISO 4032 - M8 - 8', 'ISO 4032 M8'],
    ['ISO 7089-8-200 HV', 'ISO 7089 M8'],
  ])('reads %s', (typed, designation) => expect(standardPart(typed).designation).toBe(designation));

  it.each([
    ['AN3-5A', /takes "ISO 4014 M6x40".*type its weight/],
    ['ISO 4017 M6', /takes the length behind the size/],
    ['ISO 4032 M7', /takes a size of M3, M4, M5, M6, M8, M10, M12/],
    ['ISO 4032 M6x20', /takes a hexagon nut without a length/],
  ])('refuses %s', (typed, says) => expect(() => standardPart(typed)).toThrow(says));
});
