/** MIL-HDBK-5, table 8.1.2(b): single shear of solid rivets, lb. All values from memory: verify. */
import { describe, expect, it } from 'vitest';
import { call, findDefinition } from '../../src/functions';

const SIZES = [3, 4, 5, 6, 8];
const TABLE: Readonly<Record<string, readonly number[]>> = {
  B: [203, 363, 556, 802, 1450],
  AD: [217, 388, 596, 862, 1555],
  D: [247, 442, 675, 977, 1765],
  DD: [297, 531, 815, 1180, 2125],
};

describe('MIL-HDBK-5 table 8.1.2(b), from memory', () => {
  const rows = Object.entries(TABLE).flatMap(([alloy, values]) =>
    values.map((pounds, index) => [`MS20470${alloy}${SIZES[index]}-6`, pounds] as const),
  );
  it.each(rows)('%s: %s lb', (designation, pounds) => {
    const shear = call(findDefinition('RIVET.SHEAR')!, [designation]) as number;
    expect(Math.abs(shear / pounds - 1)).toBeLessThan(0.005);
  });
});
