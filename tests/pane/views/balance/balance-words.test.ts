/** Verdicts as the pane says them: in English what the layers below say, and else by language, place and units. */
import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import { judge, judgeCase, judgementWords, makeEnvelope, wordingOf, type Airplane } from '../../../../src/core/balance';
import { quantities, UNIT_SYSTEMS } from '../../../../src/core/quantity';
import { figuresIn, judgementText, stationTexts, verdictText } from '../../../../src/pane/views/balance/balance-words';
import { setLocale } from '../../../../src/pane/locale';

const notched = makeEnvelope([
  { arm: 40, weight: 800 },
  { arm: 34, weight: 1900 },
  { arm: 38, weight: 1900 },
  { arm: 40, weight: 1500 },
  { arm: 42, weight: 1900 },
  { arm: 46, weight: 1900 },
]);
const airplane: Airplane = {
  empty: { weight: 800, arm: 40 },
  stations: [
    { name: 'Pilot', arm: 40, min: 110, max: 250 },
    { name: 'Tank', arm: 60, min: 20, max: 200, fuel: true },
  ],
  envelope: makeEnvelope([
    { arm: 38, weight: 900 },
    { arm: 38, weight: 1200 },
    { arm: 43, weight: 1200 },
    { arm: 43, weight: 900 },
  ]),
};

afterEach(() => setLocale());

describe('a judged loading', () => {
  it.each(UNIT_SYSTEMS)('is said in English as the worksheet functions say it, in %s', (units) => {
    fc.assert(
      fc.property(
        fc.double({ min: 600, max: 2200, noNaN: true }),
        fc.double({ min: 30, max: 50, noNaN: true }),
        fc.constantFrom(notched, airplane.envelope),
        (weight, arm, envelope) => {
          const judgement = judge(envelope, { weight, arm });
          expect(judgementText(judgement, figuresIn(units))).toBe(
            judgementWords(judgement, wordingOf(quantities(units))),
          );
        },
      ),
      { numRuns: 300 },
    );
  });

  it('on a limit says so', () => {
    const on = (arm: number) => judgementText(judge(airplane.envelope, { weight: 1000, arm }), figuresIn('in-lb'));
    expect([on(38), on(43)]).toEqual([
      'inside, on the forward limit and 5.00 in forward of the aft limit',
      'inside, 5.00 in aft of the forward limit and on the aft limit',
    ]);
  });

  it('between two ranges says so', () => {
    expect(judgementText(judge(notched, { weight: 1750, arm: 40 }), figuresIn('in-lb'))).toBe(
      'outside: between two allowed ranges of arms at 1,750.0 lb, 1.25 in from the nearer at 40.00 in',
    );
  });

  it('has its numbers in the place’s way and in the workbook’s units', () => {
    setLocale({ language: 'en', numbers: 'de-DE' });
    const result = judgeCase(airplane, { name: '', loads: [300, 150] });
    const say = figuresIn('mm-kg');
    expect(judgementText(result.takeoff.judgement, say)).toBe('outside: 22,7 kg over the highest weight, 544,3 kg');
    expect(stationTexts(result, say)).toEqual(['Pilot: 136,1 kg is 22,7 kg over its most, 113,4 kg']);
  });

  it('may be put in another order by a translation', () => {
    setLocale({
      language: 'de',
      numbers: 'de-DE',
      texts: {
        'outside: {findings}': '{findings}: außerhalb',
        '{by} over the highest weight, {limit}': 'über {limit}, dem höchsten Gewicht, um {by}',
        'at take-off {judgement}': 'beim Start {judgement}',
      },
    });
    expect(verdictText(judgeCase(airplane, { name: '', loads: [250, 160] }), figuresIn('in-lb'))).toBe(
      'beim Start über 1.200,0 lb, dem höchsten Gewicht, um 10,0 lb: außerhalb',
    );
  });
});

describe('a case', () => {
  const say = figuresIn('in-lb');
  it.each([
    ['inside all the way', [170, 50], 'inside from take-off to landing'],
    ['with a station out of its range', [100, 50], 'inside, but Pilot: 100.0 lb is 10.0 lb under its least, 110.0 lb'],
    ['outside at take-off', [170, 200], /^at take-off outside: \d/],
  ] as const)('%s', (_name, loads, words) => {
    const text = verdictText(judgeCase(airplane, { name: '', loads: [...loads] }), say);
    if (typeof words === 'string') expect(text).toBe(words);
    else expect(text).toMatch(words);
  });

  it('that burns its way out says after how much fuel', () => {
    const forward: Airplane = {
      ...airplane,
      empty: { weight: 800, arm: 37 },
      stations: [airplane.stations[0]!, { ...airplane.stations[1]!, min: 0 }],
    };
    expect(verdictText(judgeCase(forward, { name: '', loads: [170, 100] }), say)).toMatch(
      /^leaves the envelope after \d+\.\d lb of fuel; at landing outside: \d\.\d\d in forward of the forward limit, 38\.00 in at 970\.0 lb$/,
    );
  });
});
