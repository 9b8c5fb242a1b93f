/**
 * The arms of the sample workbooks against coordinates worked out here, by hand, from the invented drawing's own
 * figures: not by the samples' formulas, so that one that binds wrongly shows.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { plus, times, trapezoid, atChord, minus } from '../../tools/samples/expression';
import { projectSheetsOf, readParts, summarise } from '../../src/project';
import { readWorkbook } from '../../src/xlsx';
import { WING } from '../helpers/sample-figures';
import { CellError } from '../../src/sheet';

const open = (name: string) =>
  readWorkbook(new Uint8Array(readFileSync(new URL(`../../sample-workbooks/${name}`, import.meta.url))));

/** Leading edge 60 in aft of the datum, chord 54 in: the figures on the sheet Design. */
const chord = (fraction: number): number => 60 + 54 * fraction;
const FRONT = 0.27;
const REAR = 0.68;

/** Where each part stands along the chord, as the invented drawing has it: by component, then by part where it differs. */
const PLACES: Readonly<Record<string, Readonly<Record<string, number>> & { readonly '*'?: number }>> = {
  'Front spar': { '*': FRONT },
  // The hinge brackets stand 2 % of the chord behind the rear spar: 97.80 in.
  'Rear spar': { '*': REAR, 'Hinge brackets': REAR + 0.02 },
  'Nose skin': { 'Lap straps': 0.12, 'Stall strip': 0, 'Light opening doubler': 0.03 },
  'Main skins': {
    'Upper panels': 0.475,
    'Inspection rings': 0.5,
    'Inspection covers': 0.5,
    'Walkway doubler': 0.42,
    'Panel lap straps': 0.475,
    'Drain patches': 0.66,
  },
  Stringers: { '*': 0.47 },
  Tip: { 'Upper cap': 0.44, 'Lower cap': 0.44, 'Closing strips': 0.45, Gussets: 0.5 },
  Ribs: {
    'Front spar clips': FRONT,
    'Rear spar clips': REAR,
    'Root rib': 0.46,
    'Root rib stiffening angle': 0.46,
  },
  Flap: { Ribs: 0.8, 'End ribs': 0.8, Horn: 0.7, Hinge: 0.69, 'Push rod': 0.6, 'Rod ends': 0.6 },
  Fittings: {
    'Front root plates': FRONT,
    'Rear root plates': REAR,
    'Strut fitting, front': FRONT,
    'Strut fitting, rear': REAR,
    'Bellcrank plates': 0.58,
    'Push rod, aileron': 0.6,
    'Rod ends': 0.6,
    'Bellcrank bearing and pivot': 0.58,
    'Pitot tube and line': 0.1,
    'Wiring allowance': 0.3,
  },
};

describe('wing.xlsx', () => {
  const { values } = projectSheetsOf(open('wing.xlsx'));
  const rows = readParts(values)!.rows;

  it('has each part where the drawing has it', () => {
    let checked = 0;
    for (const { component, part, arm } of rows) {
      if (/^(Rivets|Hardware)/.test(part)) continue;
      const place = PLACES[component]?.[part] ?? PLACES[component]?.['*'];
      if (place === undefined) continue;
      checked += 1;
      expect(`${component}: ${part} ${arm!.toFixed(6)}`).toBe(`${component}: ${part} ${chord(place).toFixed(6)}`);
    }
    expect(checked).toBeGreaterThan(45);
  });

  it('has no part off the wing: every arm is between the leading and the trailing edge, with a push rod’s length', () => {
    for (const { component, part, arm } of rows) {
      expect(arm, `${component}: ${part}`).toBeGreaterThanOrEqual(chord(0) - 3);
      expect(arm, `${component}: ${part}`).toBeLessThanOrEqual(chord(1));
    }
  });

  it(`balances at ${WING.arm} in, with a moment of ${WING.moment} lb·in`, () => {
    const weight = rows.reduce((sum, row) => sum + row.weight!, 0);
    const moment = rows.reduce((sum, row) => sum + row.weight! * row.arm!, 0);
    expect((moment / weight).toFixed(2)).toBe(WING.arm);
    expect(moment.toFixed(0)).toBe(WING.moment);
  });
});

describe('the margins of wing.xlsx', () => {
  const { values, units, prices } = projectSheetsOf(open('wing.xlsx'));
  const { components, total, problems } = summarise(values, units, prices?.book)!;
  it('are budget less forecast', () => {
    expect(total.margin!.toFixed(2)).toBe(WING.margin);
    expect(components.find(({ name }) => name === 'Aileron')!.margin!.toFixed(2)).toBe(WING.aileronMargin);
    expect(problems).toEqual([]);
    expect(total.cost).toBeCloseTo(742.98, 2);
  });
});

describe('rib.xlsx', () => {
  // Front spar 72 in aft of the datum, 24 in from spar to spar in four bays.
  const AT: Readonly<Record<string, number>> = {
    'Upper cap': 84,
    'Lower cap': 84,
    'Front end piece': 73.1,
    'Rear end piece': 95.1,
    'Gussets, upper cap': 84,
    'Gussets, lower cap': 84,
  };
  const rows = readParts(projectSheetsOf(open('rib.xlsx')).values)!.rows;
  it.each(Object.entries(AT))('%s stands at %d in', (name, arm) => {
    expect(rows.find(({ part }) => part === name)!.arm).toBeCloseTo(arm, 9);
  });
  it('has everything between its spars', () => {
    for (const { arm } of rows) expect(arm! >= 72 && arm! <= 96).toBe(true);
  });
});

it('a sum that is written into a formula keeps its meaning beside any sign', () => {
  expect(atChord('RearSpar+0.02').tare).toBe('LeadingEdge+(RearSpar+0.02)*Chord');
  expect(atChord('RearSpar').tare).toBe('LeadingEdge+RearSpar*Chord');
  expect(times('a-b', 'c/d').tare).toBe('(a-b)*(c/d)');
  expect(minus('a', 'b-c').tare).toBe('(a-(b-c))');
  expect(minus('(a)-(b)', 2).plain).toBe('(((a)-(b))-2)');
  expect(times(plus('a', 1), 'SUM(A1,B1)').tare).toBe('(a+1)*SUM(A1,B1)');
  expect(trapezoid('a+b', 2, 3).plain).toContain('(a+b)');
});

describe('workbooks of version 0.1', () => {
  it.each(['budget', 'buying', 'rib', 'rivet-choice', 'weighing', 'wing'])('%s.xlsx opens', (name) => {
    const file = new URL(`../xlsx/fixtures/0.1/${name}.xlsx`, import.meta.url);
    const model = readWorkbook(new Uint8Array(readFileSync(file)));
    expect(model.sheets.length).toBeGreaterThan(2);
    const wrong = model.sheets.flatMap(({ cells }) => cells.flat().filter((cell) => cell?.value instanceof CellError));
    expect(wrong).toEqual([]);
    const sheets = projectSheetsOf(model);
    const parts = readParts(sheets.values);
    if (name !== 'weighing' && name !== 'rivet-choice') expect(parts!.problems).toEqual([]);
  });
});
