import { describe, expect, it } from 'vitest';
import { type SvgNode } from '../../src/core/markup';
import {
  budgetPicture,
  costPicture,
  envelopePicture,
  logPicture,
  paretoPicture,
  type EnvelopeCase,
  type Words,
} from '../../src/pictures';
import { inEnglish } from '../../src/pictures/frame';
import { nodesOf } from './read-tree';
import { envelope } from './envelope';

/** A language in which every text is in brackets; what comes in with the data is in brackets already. */
const words: Words = (english, values) => `⟦${inEnglish(english, values)}⟧`;
const UNITS = ['lb', 'in', 'USD'];

/** Words outside of brackets, which may reach over the lines of a wrapped text. */
function outside(picture: SvgNode): string[] {
  const said = nodesOf(picture).flatMap(({ children, attributes }) => [
    ...(attributes['aria-label'] === undefined ? [] : [String(attributes['aria-label'])]),
    ...children.filter((child) => typeof child === 'string'),
  ]);
  let depth = 0;
  const rest = [...said.join('\n')].filter((sign) => {
    if (sign === '⟦') depth += 1;
    const kept = depth === 0;
    if (sign === '⟧') depth -= 1;
    return kept;
  });
  return (rest.join('').match(/\p{L}+/gu) ?? []).filter((word) => !UNITS.includes(word));
}

const bars = [
  { id: 'a', name: '⟦Ribs⟧', current: 6, forecast: 7, budget: 5, plusMinus: 0.2 },
  { id: 'b', name: '⟦Spar⟧', current: 6, forecast: 7, budget: undefined },
];
const points = ['2025-11-03', '2026-01-20', '2026-03-31'].map((date, index) => ({
  id: date,
  date,
  weight: 10 + index,
  forecast: 12,
  budget: 11,
}));
const options = [
  { id: 'a', name: '⟦Solid⟧', weight: 0.4, cost: 90, current: true },
  { id: 'b', name: '⟦Blind⟧', weight: 0.7, cost: 40 },
];
const [takeoff, landing] = [
  { weight: 1095, arm: 70.2, inside: true },
  { weight: 1005, arm: 70.4, inside: true },
];
const solo: EnvelopeCase = {
  id: '1',
  name: '⟦Solo⟧',
  takeoff,
  landing,
  burn: [takeoff, landing],
  words: '⟦inside⟧',
  inside: true,
  limits: { from: 66.9, to: 74.5, at: 1095 },
};
const reach = [takeoff, landing, { weight: 900, arm: 69 }];

describe('the words of a picture', () => {
  it.each([
    ['budget', budgetPicture({ bars, total: bars[0]! }, { width: 600, words })],
    [
      'heaviest parts',
      paretoPicture(
        { parts: [{ id: '1', name: '⟦Spar⟧', of: '⟦Wing⟧', weight: 4, together: 60 }], count: 9 },
        { width: 600, words },
      ),
    ],
    ['log', logPicture({ name: '⟦Total⟧', points }, { width: 600, words })],
    [
      'log of a few days',
      logPicture(
        { name: '⟦Total⟧', points: points.map((point, index) => ({ ...point, date: `2026-01-0${index + 1}` })) },
        { width: 600, words },
      ),
    ],
    ['empty log', logPicture({ name: '⟦Total⟧', points: [] }, { width: 600, words })],
    ['cost', costPicture({ options, currency: 'USD' }, { width: 600, words })],
    [
      'envelope',
      envelopePicture({ envelope, cases: [solo], reach, toPercent: (arm) => arm - 60 }, { width: 700, words }),
    ],
    ['narrow envelope', envelopePicture({ envelope, cases: [solo] }, { width: 240, words })],
  ])('can all be in another language: %s', (_name, picture) => {
    expect(outside(picture)).toEqual([]);
  });

  it('are told apart from those left in English', () =>
    expect(outside(costPicture({ options: [], currency: 'USD' }, { width: 600 }))).toContain('options'));

  it('are English with their values in place where nobody gives others', () => {
    expect(inEnglish('{weight} left of {all}', { weight: '1 lb', all: 3 })).toBe('1 lb left of 3');
    expect(inEnglish('no budget')).toBe('no budget');
  });
});
