import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rivetCount, rivetHours, rivetLength, rivetPitch } from '../../../src/core/fastener';

describe('runs of rivets', () => {
  it.each([
    [{ run: 24, pitch: 1.25, edge: 0.25 }, 19],
    [{ run: 24.5, pitch: 1, edge: 0.25 }, 25],
    [{ run: 10, pitch: 1 }, 11],
    [{ run: 0.3, pitch: 0.1 }, 4],
    [{ run: 0.7, pitch: 0.1, edge: 0 }, 8],
    [{ run: 1, pitch: 3, edge: 0.5 }, 1],
    [{ run: 10, pitch: 0.5, edge: 0.25, rows: 2 }, 40],
    [{ run: 10, pitch: 1, edge: 0.5, rows: 2, staggered: true }, 19],
    [{ run: 10, pitch: 1, edge: 0.5, rows: 3, staggered: true }, 29],
    [{ run: 10.7, pitch: 1, edge: 0.5, rows: 2, staggered: true }, 20],
    [{ run: 0.5, pitch: 1, edge: 0.25, rows: 2, staggered: true }, 1],
  ])('%o has %i', (row, count) => expect(rivetCount(row)).toBe(count));

  it('refuses an edge that leaves no room', () => {
    expect(() => rivetCount({ run: 1, pitch: 0.5, edge: 0.6 })).toThrow(/edge: got 0.6; takes at most half of run/);
    expect(() => rivetPitch(1, 3, 0.5)).toThrow(/edge/);
    expect(() => rivetPitch(1, 1)).toThrow(/count: got 1; takes two rivets or more/);
  });

  const whole = fc.record({
    count: fc.integer({ min: 2, max: 500 }),
    pitch: fc.double({ min: 0.05, max: 5, noNaN: true }),
    edge: fc.double({ min: 0, max: 5, noNaN: true }),
  });

  it('a run of n − 1 whole pitches holds n, whatever the binary fractions', () => {
    fc.assert(
      fc.property(
        whole,
        ({ count, pitch, edge }) => rivetCount({ run: (count - 1) * pitch + 2 * edge, pitch, edge }) === count,
      ),
    );
  });

  it('the pitch of a number of rivets gives that number', () => {
    fc.assert(
      fc.property(whole, ({ count, pitch, edge }) => {
        const run = (count - 1) * pitch + 2 * edge;
        return rivetCount({ run, pitch: rivetPitch(run, count, edge), edge }) === count;
      }),
    );
  });

  it('a staggered row has as many as the straight one or one fewer', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 100, noNaN: true }),
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        (run, pitch) => {
          const straight = rivetCount({ run, pitch });
          const both = rivetCount({ run, pitch, rows: 2, staggered: true });
          return both === 2 * straight || both === 2 * straight - 1;
        },
      ),
    );
  });

  it('length and hours', () => {
    expect(rivetLength(0.1, 0.125)).toBeCloseTo(0.2875, 12);
    expect(rivetHours(240, 2)).toBe(8);
  });
});
