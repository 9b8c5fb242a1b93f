/**
 * Densities as data sheets print them: ASM's sheets of the alloys (steels, titanium), mills' and suppliers' sheets of
 * the others. g/cm³, and lb/in³ where the sheet has it.
 */
import { describe, expect, it } from 'vitest';
import { MATERIALS } from '../../src/core/material';
import { call, findDefinition } from '../../src/functions';

const density = (material: string, units: string): number =>
  call(findDefinition('MATERIAL.DENSITY')!, [material, units]) as number;

const PRINTED: readonly (readonly [material: string, metric: number | undefined, inch: number | undefined])[] = [
  // ASM data sheets: AISI 4130 normalized; type 304; Ti-6Al-4V annealed bar; 7178-T6 ("AA; Typical").
  ['4130', 7.85, 0.284],
  ['304', 8, 0.289],
  ['Ti-6Al-4V', 4.43, 0.16],
  ['7178', 2.83, 0.102],
  // A data sheet of AISI 1010: 7870 kg/m³.
  ['1010', 7.87, 0.284],
  // Suppliers' sheets: 1.4401 (316), EN AW-6082, AZ31B (ASTM B90), C36000 (ASTM B16).
  ['316', 8, undefined],
  ['6082', 2.7, undefined],
  ['AZ31B', 1.77, 0.0639],
  ['C360', undefined, 0.307],
  // Tables of the elements; cast acrylic by ISO 1183 and ASTM D792; polycarbonate by ASTM D792.
  ['Lead', 11.34, 0.41],
  ['Acrylic', 1.19, undefined],
  ['Polycarbonate', 1.2, undefined],
];

describe('densities of data sheets', () => {
  it.each(PRINTED)('%s: %s g/cm³, %s lb/in³', (material, metric, inch) => {
    // To .2 %: one column is stored, and both are rounded as they are printed.
    if (metric !== undefined) expect(Math.abs(density(material, 'mm-kg') / metric - 1)).toBeLessThan(0.002);
    if (inch !== undefined) expect(Math.abs(density(material, 'in-lb') / inch - 1)).toBeLessThan(0.0025);
  });

  it('the help names every material whose source nobody has seen', () => {
    const unseen = MATERIALS.filter(({ source }) => source.includes('from memory')).map((one) => one.designation);
    const help = findDefinition('MATERIAL.DENSITY')!.limits!.join(' ');
    expect(unseen).toEqual(['2024 clad', '7075 clad']);
    for (const designation of unseen) expect(help).toContain(designation);
  });
});
