import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/sheet';
import { balanceModels, CASES, CORRECTIONS, ENVELOPE, LOADING, projectSheetNames, WEIGHING } from '../../src/project';
import { airplaneSheets } from '../../src/project/balance-forms';
import { header, row, sheet, valuesOf } from './sheets';

const weighing = (
  points: readonly Record<string, Cell>[],
  facts: Cell[][] = [],
  corrections: readonly Record<string, Cell>[] = [],
): Cell[][] => [
  ['Weighing'],
  ...facts,
  header(WEIGHING),
  ...points.map((cells) => row(WEIGHING, cells)),
  [],
  header(CORRECTIONS),
  ...corrections.map((cells) => row(CORRECTIONS, cells)),
];
const only = (sheets: Record<string, Cell[][]>) => balanceModels(valuesOf(sheets), Object.keys(sheets))[0]!;

describe('the weighing', () => {
  it('gives the empty weight and arm (FAA-H-8083-1B, net 830 and 836 lb at +46 in, 340 lb at −32 in: 2,006 lb, +32.8 in)', () => {
    const { empty, problems } = only({
      Weighing: weighing([
        { point: 'left main', reading: 838, tare: 8, arm: 46 },
        { point: 'right main', reading: 846, tare: 10, arm: 46 },
        { point: 'nose', reading: 348, tare: 8, arm: -32 },
      ]),
    });
    expect(empty!.weight).toBe(2006);
    expect(empty!.arm).toBeCloseTo(32.8, 1);
    expect(problems).toEqual([]);
  });

  it('reads its facts wherever they stand above, and takes corrections from below', () => {
    const { weighing: read, airplane } = only({
      Weighing: weighing(
        [
          { point: 'left', reading: 400, tare: 0, arm: 60 },
          { point: 'right', reading: 400, tare: 0, arm: 60 },
          { point: 'tail', reading: 50, tare: 0, arm: 240 },
        ],
        [
          ['Airplane', 'Corncrake'],
          ['Weighed on', 46284],
          ['Gear', 'Tail wheel'],
          [null, 'Level found by', 'sill'],
          ['MAC (in)', 54],
          ['Leading edge of MAC', 60],
        ],
        [{ correction: 'fuel', weight: -12, arm: 69 }],
      ),
    });
    expect(airplane).toBe('Corncrake');
    expect(read!.record).toMatchObject({
      gear: 'tailwheel',
      date: '2026-09-19',
      levelNote: 'sill',
      chord: { lemac: 60, mac: 54 },
    });
    const [weight, moment] = [838, 800 * 60 + 50 * 240 - 12 * 69];
    expect(read!.result!.weight).toBeCloseTo(weight, 9);
    expect(read!.result!.percentMac).toBeCloseTo((100 * (moment / weight - 60)) / 54, 9);
  });

  it('tells the gear by where the lightest point stands, and names a record that says otherwise', () => {
    const points = [
      { point: 'l', reading: 400, arm: 60 },
      { point: 'r', reading: 400, arm: 60 },
      { point: 't', reading: 50, arm: 240 },
    ];
    expect(only({ Weighing: weighing(points) }).weighing!.record.gear).toBe('tailwheel');
    const { problems } = only({ Weighing: weighing(points, [['Gear', 'nosewheel']]) });
    expect(problems).toEqual([
      {
        sheet: 'Weighing',
        cell: 'B2',
        message: 'says nosewheel, but the lightest point stands aft of the others: check the signs of the arms',
      },
    ]);
  });

  it('names what it cannot weigh', () => {
    const { problems, empty } = only({
      Weighing: weighing(
        [{ point: 'l', reading: 5, tare: 8, arm: 1 }, { point: 'r', reading: 5 }, { point: 'later' }],
        [['MAC', 54]],
      ),
    });
    expect(empty).toBeUndefined();
    expect(problems.map(({ cell, message }) => `${cell} ${message}`)).toEqual([
      'A1 is missing: per cent of the chord needs both the leading edge and the length of the MAC',
      'C4 got 8; takes no more than the reading, 5',
      'E5 is blank; takes inches from the datum',
    ]);
  });
});

const stations: readonly Record<string, Cell>[] = [
  { station: 'Pilot', arm: 78, min: 110, max: 250, load: 170 },
  { station: 'Baggage', arm: 118, min: 0, max: 80 },
  { station: 'Tank', arm: 69, min: 18, max: 144, load: 100, fuel: 'yes' },
];
const corners = [
  [66.5, 800],
  [66.5, 1050],
  [69, 1320],
  [74.5, 1320],
  [74.5, 800],
].map(([arm, weight]) => ({ arm: arm!, weight: weight! }));
const loading = (rows: readonly Record<string, Cell>[] = stations): Cell[][] => [
  ['Loading'],
  ['', 'Weight (lb)', 'Arm (in)'],
  ['Empty', 780, 68.7],
  ...sheet(LOADING, rows).slice(1),
];
const cases = (rows: readonly Cell[][]): Cell[][] => [
  ['Cases'],
  ['Case', 'pilot (lb)', 'Tank', 'Baggage', 'Take-off weight (lb)', 'Note'],
  ...rows,
];
const sheets = {
  Loading: loading(),
  Envelope: sheet(ENVELOPE, corners),
  Cases: cases([
    ['Solo', 170, 100, null],
    ['Aft', 250, 18, 80, 1e6, 'watch'],
  ]),
};

describe('the loading', () => {
  it('is judged as typed and case by case, the empty weight from the loading sheet where nothing has been weighed', () => {
    const { empty, judged, problems } = only(sheets);
    expect(problems).toEqual([]);
    expect(empty).toEqual({ weight: 780, arm: 68.7, from: 'loading' });
    const moment = 780 * 68.7 + 170 * 78 + 100 * 69;
    expect(judged!.now!.result.takeoff.arm).toBeCloseTo(moment / 1050, 9);
    // The tank burns down to its least: 82 lb at 69 in.
    expect(judged!.now!.result.landing).toMatchObject({ weight: 968 });
    expect(judged!.now!.words.verdict).toBe('inside from take-off to landing');
    const [solo, aft] = judged!.cases;
    // Columns of the cases stand in their own order; they are found by the stations' names.
    expect(solo!.loads).toEqual([170, 0, 100]);
    expect(aft!.loads).toEqual([250, 80, 18]);
    expect(solo!.result.takeoff).toEqual(judged!.now!.result.takeoff);
    expect([solo!.row, aft!.row]).toEqual([2, 3]);
  });

  it('finds the worst that the ranges allow', () => {
    const { judged } = only(sheets);
    expect(judged!.worst.aft!.loads).toEqual([250, 80, 18]);
    expect(judged!.allInside).toBe(judged!.worst.aftMargin!.margin >= 0);
  });

  it('is weighed where there is a weighing', () => {
    const model = only({
      ...sheets,
      Weighing: weighing([
        { point: 'a', reading: 700, arm: 60 },
        { point: 'b', reading: 80, arm: 145 },
      ]),
    });
    expect(model.empty).toMatchObject({ weight: 780, from: 'weighing' });
  });

  it('says what leaves the envelope while fuel burns, by how much, and which station is over its most', () => {
    const { judged } = only({ ...sheets, Cases: cases([['Burn', 250, 144, 90]]) });
    const [burn] = judged!.cases;
    expect(burn!.words.stations).toEqual(['Baggage: 90.0 lb is 10.0 lb over its most, 80.0 lb']);
    expect(burn!.result.inside).toBe(false);
    // (93,642 − 69 b) / (1,264 − b) = 74.5 gives b = 95.64.
    expect(burn!.words.verdict).toBe(
      'leaves the envelope after 95.6 lb of fuel; at landing outside: 0.15 in aft of the aft limit, 74.50 in at 1,138.0 lb',
    );
    const heavy = only({ ...sheets, Cases: cases([['Heavy', 250, 144, 200]]) }).judged!.cases[0]!;
    expect(heavy.words.verdict).toBe(
      'at take-off outside: 54.0 lb over the highest weight, 1,320.0 lb; 3.10 in aft of the aft limit, 74.50 in at the envelope’s highest weight, 1,320.0 lb',
    );
  });

  it('names wrong cells and counts the rest', () => {
    const model = only({
      Loading: loading([
        ...stations,
        { station: 'pilot', arm: 1, max: 1 },
        { station: 'Tip tank', arm: 70 },
        { station: 'Box', arm: 70, min: 9, max: 5, fuel: 'perhaps' },
      ]),
      Envelope: sheet(ENVELOPE, corners),
      Cases: [
        ['Case', 'Pilot', 'Tank', 'Box', 'Attic'],
        ['One', 170, 'full', 0, 20],
      ],
    });
    expect(model.problems.map(({ sheet: name, cell, message }) => `${name}!${cell} ${message}`)).toEqual([
      'Loading!A8 "pilot" is listed twice: give each station a name of its own',
      'Loading!E9 is blank; takes pounds, 0 or more',
      'Loading!D10 got 9; takes no more than Max, 5',
      'Loading!F10 got "perhaps"; takes yes for a tank, or a blank',
      'Cases!E1 "Attic" is no station of the sheet Loading: its weights are left out',
      'Cases!C2 got full; takes pounds, 0 or more. It counts as 0',
      'Cases!A1 has no column for the station "Baggage": it counts as empty',
    ]);
    expect(model.judged!.cases[0]!.loads).toEqual([170, 0, 0, 0]);
  });

  it('is not judged against an envelope whose edges cross', () => {
    const { judged, problems } = only({
      ...sheets,
      Envelope: sheet(ENVELOPE, [corners[0]!, corners[3]!, corners[2]!, corners[4]!]),
    });
    expect(judged).toBeUndefined();
    expect(problems.map(({ sheet: name, cell }) => `${name}!${cell}`)).toEqual(['Envelope!A3']);
  });
});

describe('the sheets of an airplane', () => {
  it('share the words behind their names, and borrow the plain ones', () => {
    expect(
      airplaneSheets(['Parts', 'Weighing', 'Loading', 'Envelope', 'Cases', 'Weighing 2027', 'Casesworth']),
    ).toEqual([
      { name: '', weighing: 'Weighing', loading: 'Loading', envelope: 'Envelope', cases: 'Cases' },
      { name: '2027', weighing: 'Weighing 2027', loading: 'Loading', envelope: 'Envelope', cases: 'Cases' },
    ]);
    expect(
      airplaneSheets(['Weighing tailwheel', 'Loading (tailwheel)', 'Envelope Tailwheel', 'Loading nose']).map(
        ({ name, loading: of, envelope }) => [name, of, envelope],
      ),
    ).toEqual([
      ['tailwheel', 'Loading (tailwheel)', 'Envelope Tailwheel'],
      ['nose', 'Loading nose', undefined],
    ]);
    expect(airplaneSheets(['Envelope', 'Cases'])).toEqual([]);
  });

  it('are among the sheets that have to be read', () => {
    expect(projectSheetNames(['Parts', 'Notes', 'Log', 'Weighing a', 'Envelope', 'Prices'])).toEqual([
      'Parts',
      'Log',
      'Weighing a',
      'Envelope',
    ]);
  });

  it('give no model where they are without their headers', () => {
    expect(balanceModels(valuesOf({ Weighing: [['nothing']] }), ['Weighing'])).toEqual([]);
  });

  it('find a case’s columns by the labels of the form', () => {
    expect(CASES.columns.map(({ label }) => label)).toContain('At take-off');
  });
});
