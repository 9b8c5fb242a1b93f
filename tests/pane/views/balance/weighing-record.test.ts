import { describe, expect, it } from 'vitest';
import { recordBody, recordPage } from '../../../../src/pane/views/balance/weighing-record';
import { projectSheetsOf, type Weighing } from '../../../../src/project';
import { readWeighing } from '../../../../src/project/weighing';
import { airplanes } from './models';

const { values } = projectSheetsOf(airplanes());
const weighing = readWeighing(values, 'Weighing tailwheel')!;
const words = (html: string): string => html.replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ');

describe('the printed weighing record', () => {
  it('holds every reading, tare, arm, correction, the level note, and what follows', () => {
    const text = words(recordBody(weighing, 'in-lb', '2026-09-20')!);
    for (const part of [
      'Corncrake, invented two-seater',
      'Weighed on 2026-09-19',
      'Gear tailwheel',
      'Door sill, spirit level, tail on a stand',
      'Three platform scales',
      'Left main wheel 374.5 4.0 370.5 58.25 21,581.6',
      'Tailwheel 61.5 15.5 46.0 243.50 11,201.0',
      'As weighed 791.5 69.02 54,626.4',
      'Fuel left in the tanks, 2 gal −12.0 69.00 −828.0',
      'Weight 778.8 lb',
      'Arm, aft of the datum 68.71 in',
      'Moment 53,508.6 lb·in',
      '16.1 %',
      'Limits come from the aircraft’s own documents',
      'Printed 2026-09-20',
      'Weighed by',
    ])
      expect(text).toContain(part);
  });

  it('says what is not settled', () => {
    const faulty: Weighing = {
      ...weighing,
      problems: [{ sheet: 'Weighing tailwheel', cell: 'C18', message: 'got -4; takes pounds, 0 or more' }],
    };
    expect(words(recordBody(faulty, 'in-lb', '2026-09-20')!)).toContain(
      'Not settled on the sheet: C18 got -4; takes pounds, 0 or more.',
    );
  });

  it('takes what was typed as text, never as markup', () => {
    const hostile: Weighing = { ...weighing, airplane: '<img src=x onerror=alert(1)>' };
    const page = recordPage(recordBody(hostile, 'in-lb', '2026-09-20')!, hostile.airplane);
    expect(page).not.toContain('<img');
    expect(page).toContain('&lt;img src=x');
  });

  it('is not to be had before the airplane was weighed', () =>
    expect(recordBody({ ...weighing, result: undefined }, 'in-lb', '2026-09-20')).toBeUndefined());
});
