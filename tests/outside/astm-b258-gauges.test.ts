/** ASTM B258, standard nominal diameters of solid round wires in the American (Brown & Sharpe) gauge, inches. The table from memory; the formula is the standard's. */
import { describe, expect, it } from 'vitest';
import { call, findDefinition } from '../../src/functions';

const TABLE: readonly (readonly [gauge: string | number, inches: number])[] = [
  ['0000', 0.46],
  ['000', 0.4096],
  ['00', 0.3648],
  ['0', 0.3249],
  [1, 0.2893],
  [2, 0.2576],
  [4, 0.2043],
  [6, 0.162],
  [8, 0.1285],
  [9, 0.1144],
  [10, 0.1019],
  [11, 0.0907],
  [12, 0.0808],
  [13, 0.072],
  [14, 0.0641],
  [15, 0.0571],
  [16, 0.0508],
  [17, 0.0453],
  [18, 0.0403],
  [19, 0.0359],
  [20, 0.032],
  [21, 0.0285],
  [22, 0.0253],
  [23, 0.0226],
  [24, 0.0201],
  [25, 0.0179],
  [26, 0.0159],
  [27, 0.0142],
  [28, 0.0126],
  [29, 0.0113],
  [30, 0.01],
  [32, 0.008],
  [36, 0.005],
  [40, 0.0031],
];

describe('ASTM B258', () => {
  it.each(TABLE)('gauge %s is %s in', (gauge, inches) =>
    expect(call(findDefinition('GAUGE.THICKNESS')!, [gauge])).toBe(inches),
  );
  it.each(TABLE.filter(([gauge]) => typeof gauge === 'number'))('%s is the gauge nearest to %s in', (gauge, inches) => {
    expect(call(findDefinition('GAUGE.NEAREST')!, [inches])).toBe(gauge);
  });
});
