import { describe, expect, it } from 'vitest';
import { NotListedError } from '../../../src/core/input-error';
import { densityOf, findMaterial, material, MATERIALS } from '../../../src/core/material';

describe('materials', () => {
  it.each([
    ['6061', '6061'],
    ['6061-T6', '6061'],
    ['6061 T6', '6061'],
    ['6061t6', '6061'],
    ['6061-T6511', '6061'],
    ['AA 6061-T6', '6061'],
    ['aluminium 6061', '6061'],
    ['2024-O', '2024'],
    ['2024-T3 bare', '2024'],
    ['2024-T3 clad', '2024 clad'],
    ['Alclad 2024-T3', '2024 clad'],
    ['ALCLAD 7075-T6', '7075 clad'],
    ['5052-H32', '5052'],
    ['3003-H14', '3003'],
    ['4130', '4130'],
    ['4130N', '4130'],
    ['4130 N', '4130'],
    ['AISI 4130', '4130'],
    ['type 304', '304'],
    ['Ti-6Al-4V', 'Ti-6Al-4V'],
    ['ti 6al4v', 'Ti-6Al-4V'],
    ['polycarbonate', 'Polycarbonate'],
    ['lead', 'Lead'],
  ])('%s is %s', (written, designation) => expect(findMaterial(written)?.designation).toBe(designation));

  it.each([
    ['6016-T6', '6061'],
    ['2042', '2024'],
    ['7057-T6', '7075'],
    ['acrilic', 'Acrylic'],
  ])('%s is not listed, %s is near', (written, near) => {
    expect(() => material(written)).toThrow(NotListedError);
    expect(() => material(written)).toThrow(near);
  });

  it.each([['unobtanium'], [''], ['clad'], ['T6'], ['6061 clad']])('%s is not listed', (written) =>
    expect(() => material(written)).toThrow(NotListedError),
  );

  it('there are at least 16 rows, each with its source, none written in two ways that clash', () => {
    expect(MATERIALS.length).toBeGreaterThanOrEqual(16);
    for (const row of MATERIALS) {
      expect(row.source.length).toBeGreaterThan(5);
      expect(findMaterial(row.designation)).toBe(row);
      for (const alias of row.aliases ?? []) expect(findMaterial(alias)).toBe(row);
    }
  });

  it('a density in g/cm³ and one in lb/in³ both come out in lb/in³', () => {
    expect(densityOf(material('4130'))).toBeCloseTo(0.2836, 5);
    expect(densityOf(material('6061'))).toBeCloseTo(0.097544, 6);
  });

  it('clad sheet is lighter than bare by less than a hundredth', () => {
    for (const alloy of ['2024', '7075']) {
      const ratio = densityOf(material(`${alloy} clad`)) / densityOf(material(alloy));
      expect(ratio).toBeLessThan(1);
      expect(ratio).toBeGreaterThan(0.99);
    }
  });
});
