import { quantities } from '../../../../src/core/quantity';
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../../../src/sheet';
import { projectSheetsOf, readParts, readSurfaces, type SurfacesSheet } from '../../../../src/project';
import { call, findDefinition } from '../../../../src/functions';
import {
  agreementWords,
  counterweightWords,
  headline,
  measuredWords,
  partsWords,
} from '../../../../src/pane/views/balance/balance-words';
import { AILERON, book, partsSheet, surfacesSheet } from './models';

function read(row: readonly Cell[], parts: readonly (readonly Cell[])[] = AILERON): SurfacesSheet {
  const { values } = projectSheetsOf(book(partsSheet(parts), surfacesSheet([row])));
  return readSurfaces(values, readParts(values))!;
}
const only = (row: readonly Cell[], parts?: readonly (readonly Cell[])[]) => read(row, parts).surfaces[0]!;
const IN_LB = quantities('in-lb');
const FULL: readonly Cell[] = ['Aileron', 'aileron', 90, 1.2, 1, 10, 4];

describe('a control surface', () => {
  it('has the moment of its parts about the hinge line: 2·4 + 0.5·8 − 0.8·2.5 = 10 lb·in', () => {
    const { parts } = only(FULL);
    expect(parts!.moment).toBeCloseTo(10, 12);
    expect(parts!.rows).toHaveLength(3);
    expect(parts!.moment).toBeCloseTo(
      call(findDefinition('HINGE.MOMENT')!, [
        [[2], [0.5], [0.8]],
        [[4], [8], [-2.5]],
      ]) as number,
      12,
    );
  });

  it('has the mean of both readings as its measured moment, and half their difference as friction', () => {
    const { measured } = only(FULL);
    expect(measured!.moment).toBeCloseTo(11, 12);
    expect(measured!.friction).toBeCloseTo(1, 12);
    expect(measured!.moment).toBe(call(findDefinition('HINGE.MEASURED')!, [1.2, 1, 10]));
  });

  it('takes its counterweight from the scale, else from the parts', () => {
    expect(only(FULL).counterweight).toBeCloseTo(2.75, 12);
    expect(only(['Aileron', 'Aileron', 90, null, null, null, 4]).counterweight).toBeCloseTo(2.5, 12);
    expect(only([...FULL, 80]).counterweight).toBeCloseTo(2.2, 12);
    expect(only(['Aileron', 'Aileron', 97, null, null, null, 4]).counterweight).toBeUndefined();
  });

  it('says whether parts and scale agree, by the friction of the hinges', () => {
    expect(agreementWords(only(FULL), IN_LB)).toContain('The scale says 1.0 lb·in (10 %) more than the parts list');
    expect(agreementWords(only(['Aileron', 'Aileron', 90, 1.3, 0.9, 10, 4]), IN_LB)).toContain(
      'The two agree: they differ by 1.0 lb·in (10 %)',
    );
    expect(agreementWords(only(['Aileron', 'Aileron', 90]), IN_LB)).toBe('Shown when both are there.');
  });

  it('is in words: which edge hangs, and what is missing', () => {
    expect(headline(only(FULL), IN_LB)).toBe('11.0 lb·in, trailing-edge heavy');
    expect(headline(only(['Aileron', 'Aileron', 97, null, null, null, 4]), IN_LB)).toMatch(/leading-edge heavy$/);
    expect(headline(only(['Tab', null, null, 0.02, -0.02, 6]), IN_LB)).toContain(
      'in balance, as far as the hinges’ friction',
    );
    expect(counterweightWords(only(['Aileron', 'Aileron', 97]), IN_LB)).toBe(
      'None: the surface is not trailing-edge heavy.',
    );
    expect(measuredWords(only(['Aileron', 'Aileron', 90]), IN_LB)).toContain('Needs both readings');
    expect(partsWords(only(FULL, [...AILERON, ['Aileron', 'Paint', 0.2, null, null]]), IN_LB)).toContain(
      'Left out, without weight or arm: Paint.',
    );
  });

  it.each([
    ['a component that is not there', ['Rudder', 'Rudder', 90], '"Rudder" is no component of the parts list'],
    ['no hinge line', ['Aileron', 'Aileron', null], 'is blank; takes inches from the datum'],
    [
      'one reading only',
      ['Aileron', 'Aileron', 90, 1.2, null, 10],
      'is blank; takes the reading in this direction too',
    ],
    [
      'a share typed as a fraction',
      ['Aileron', 'Aileron', 90, 1.2, 1, 10, 4, 0.8],
      'got 0.8; takes per cent from 5 to 200: 80 for 80 %',
    ],
    [
      'a counterweight behind the hinge',
      ['Aileron', 'Aileron', 90, 1.2, 1, 10, -4],
      'got -4; takes inches from the hinge line, above 0',
    ],
    ['a text for a reading', ['Aileron', 'Aileron', 90, 'much', 1, 10], 'got "much"; takes pounds'],
  ])('names %s', (_words, row, message) =>
    expect(
      read(row)
        .problems.map((problem) => problem.message)
        .join(),
    ).toContain(message),
  );
});
