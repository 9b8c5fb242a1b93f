/**
 * Aluminum Association: nominal densities of the alloys of its Specification, printed in lb/in³ and in kg/m³
 * (the same table in design manuals). The rows of rivet alloys: the Association's typical values as ASM data sheets
 * print them ("AA; Typical"); 2117 as published lists of alloys print it.
 */
import { describe, expect, it } from 'vitest';
import { call, findDefinition } from '../../src/functions';

const density = (alloy: string, units: string): number =>
  call(findDefinition('MATERIAL.DENSITY')!, [alloy, units]) as number;

const PRINTED: readonly (readonly [alloy: string, inch: number, metric: number])[] = [
  ['1100', 0.098, 2.71],
  ['2014', 0.101, 2.8],
  ['2024', 0.1, 2.78],
  ['3003', 0.099, 2.73],
  ['5050', 0.097, 2.69],
  ['5052', 0.097, 2.68],
  ['5083', 0.096, 2.66],
  ['5086', 0.096, 2.66],
  ['6061', 0.098, 2.7],
  ['6063', 0.097, 2.7],
  ['7075', 0.101, 2.81],
  ['2017', 0.101, 2.79],
  ['2117', 0.0994, 2.75],
  ['5056', 0.0954, 2.64],
  ['7178', 0.102, 2.83],
];

describe('Aluminum Association, nominal densities', () => {
  it.each(PRINTED)('%s: the g/cm³ column', (alloy, _inch, metric) =>
    expect(density(alloy, 'mm-kg')).toBeCloseTo(metric, 9),
  );

  // The inch column is rounded to .001: half a step, and .2 % for the two columns having been rounded each for itself.
  it.each(PRINTED)('%s: the lb/in³ column, as far as its rounding goes', (alloy, inch) => {
    expect(Math.abs(density(alloy, 'in-lb') - inch)).toBeLessThanOrEqual(0.0005 + 0.002 * inch);
  });
});
