/** Laws of gauges, weights of stock, and rivets. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CellError, type Argument } from '../../../src/sheet';
import {
  between,
  column,
  factors,
  holds,
  law,
  lengths,
  near,
  orders,
  shuffled,
  table,
  tare,
  thicknesses,
  value,
  whole,
} from '../tare';

const METALS = fc.constantFrom('6061-T6', '2024-T3', '2024-T3 clad', '5052-H32', '7075-T6', '4130', '3003');

describe('gauges', () => {
  it('thickness and nearest gauge are a pair for every gauge, thinner as the number rises', () => {
    const gauges = ['4/0', '3/0', '2/0', '1/0', ...Array.from({ length: 40 }, (_, index) => index + 1)];
    const thick = gauges.map((gauge) => value('GAUGE.THICKNESS', gauge));
    gauges.forEach((gauge, index) => expect(tare('GAUGE.NEAREST', thick[index])).toBe(gauge));
    thick.slice(1).forEach((one, index) => expect(one).toBeLessThan(thick[index]!));
  });

  it('nearest is the nearest', () => {
    law([between(0.0032, 0.46), whole(1, 40)], (t, other) => {
      const off = Math.abs(value('GAUGE.THICKNESS', tare('GAUGE.NEAREST', t)) - t);
      holds(off <= Math.abs(value('GAUGE.THICKNESS', other) - t) + 1e-12, `gauge ${other} is nearer to ${t}`);
    });
  });

  it('mill tolerance is a fraction of the thickness', () => {
    law([between(0.018, 0.125)], (t) => {
      const share = value('TOLERANCE.SHEET', t);
      holds(share > 0 && share < 0.5, String(share));
    });
  });
});

describe('weights', () => {
  it('are linear in size, density and pieces', () => {
    const twice: readonly (readonly [string, number])[] = [
      ['WEIGHT.SHEET', 4],
      ['WEIGHT.SECTION', 4],
      ['WEIGHT.VOLUME', 3],
    ];
    law([between(0.5, 5000), thicknesses, between(0.03, 0.2), whole(1, 50), factors], (size, t, density, pieces, k) => {
      for (const [name, count] of twice) {
        const args = count === 4 ? [size, t, density, pieces] : [size, density, pieces];
        const weight = value(name, ...args);
        args.forEach((one, place) =>
          near(value(name, ...args.map((same, at) => (at === place ? k * one : same))), k * weight),
        );
        near(value(name, ...args.slice(0, -1)) * pieces, weight);
      }
      near(value('WEIGHT.SHEET', size, 2 * t, density), 2 * value('WEIGHT.SHEET', size, t, density));
    });
  });

  it('of a part cut in two are those of its parts', () => {
    law([between(0.5, 5000), between(0.5, 5000), thicknesses, METALS], (a, b, t, metal) => {
      near(
        value('WEIGHT.SHEET', a + b, t, metal),
        value('WEIGHT.SHEET', a, t, metal) + value('WEIGHT.SHEET', b, t, metal),
      );
      near(value('WEIGHT.SHEET', a, t, metal), value('WEIGHT.VOLUME', a * t, metal));
      near(value('WEIGHT.SHEET', a, t, metal), (value('WEIGHT.PERAREA', t, metal) * a) / 144);
      near(value('WEIGHT.SECTION', a, b, metal), value('WEIGHT.VOLUME', a * b, metal));
    });
  });

  it('of a tube is a bar less its bore; of a bar, a section of its circle; with the square of the diameter', () => {
    law(
      [between(0.2, 6), whole(2, 48), lengths, METALS, whole(1, 9), factors],
      (d, percent, length, metal, pieces, k) => {
        const wall = Math.min(1, (d * percent) / 100);
        const bore = d - 2 * wall;
        near(
          value('WEIGHT.TUBE', d, wall, length, metal, pieces),
          value('WEIGHT.BAR', d, length, metal, pieces) - value('WEIGHT.BAR', bore, length, metal, pieces),
          value('WEIGHT.BAR', d, length, metal, pieces),
        );
        near(value('WEIGHT.BAR', d, length, metal), value('WEIGHT.SECTION', value('AREA.CIRCLE', d), length, metal));
        near(value('WEIGHT.BAR', k * d, length, metal), k * k * value('WEIGHT.BAR', d, length, metal));
      },
    );
  });

  it('by designation are those by its density, in either system', () => {
    law([METALS, between(1, 500), thicknesses], (metal, area, t) => {
      near(value('WEIGHT.SHEET', area, t, value('MATERIAL.DENSITY', metal)), value('WEIGHT.SHEET', area, t, metal));
      const metric = value('MATERIAL.DENSITY', metal, 'mm-kg');
      near(
        value('WEIGHT.SHEET', area * 645.16, t * 25.4, metric, null, 'mm-kg'),
        value('WEIGHT.SHEET', area, t, metal) * 0.45359237,
      );
      near(value('WEIGHT.SHEET', area, t, `${metric} g/cm³`), value('WEIGHT.SHEET', area, t, metal));
    });
  });
});

describe('rivets along a run', () => {
  it('count and pitch are a pair', () => {
    law([between(2, 200), whole(2, 300), whole(0, 40)], (run, count, percent) => {
      const edge = (run * percent) / 100;
      const pitch = value('RIVET.PITCH', run, count, edge);
      near(pitch * (count - 1), run - 2 * edge);
      holds(value('RIVET.COUNT', run, pitch, edge) === count, `${value('RIVET.COUNT', run, pitch, edge)} for ${count}`);
    });
  });

  it('are more on a longer run and no more at a wider pitch; rows multiply; staggered rows hold no more', () => {
    law([between(2, 200), between(0.2, 3), factors, whole(1, 6)], (run, pitch, k, rows) => {
      const count = value('RIVET.COUNT', run, pitch);
      holds(
        k >= 1 ? value('RIVET.COUNT', run * k, pitch) >= count : value('RIVET.COUNT', run, pitch * k) >= count,
        'fewer on a longer run or at a closer pitch',
      );
      holds(value('RIVET.COUNT', run, pitch, 0, rows) === rows * count, 'rows');
      const staggered = value('RIVET.COUNT', run, pitch, 0, rows, true);
      holds(
        staggered <= rows * count && staggered >= rows * count - Math.floor(rows / 2),
        `${staggered} staggered for ${rows * count}`,
      );
      holds(
        (count - 1) * pitch <= run * (1 + 1e-9) && count * pitch > run * (1 - 1e-9),
        `${count} of ${pitch} in ${run}`,
      );
    });
  });
});

const style = fc.constantFrom('universal', 'flush');
const diameter = fc.constantFrom(3, 4, 5, 6).map((dash) => dash / 32);
const grips = between(0.03, 0.5);

describe('rivets by the grip', () => {
  it('the length is grip and one and a half diameters; the pick is that length to the step that was asked for', () => {
    law(
      [style, diameter, grips, fc.constantFrom('nearest', 'longer', 'nearest half', 'longer half')],
      (head, d, grip, rounding) => {
        const needed = value('RIVET.LENGTH', grip, d, head);
        near(needed, grip + 1.5 * d);
        const picked = String(tare('RIVET.PICK', head, d, grip, rounding));
        const length = Number(/-([\d.]+)$/.exec(picked)?.[1]) / 16;
        const step = rounding.endsWith('half') ? 1 / 32 : 1 / 16;
        const off = length - needed;
        const least = 2 / 16;
        if (length > least)
          holds(
            rounding.startsWith('longer') ? off > -1e-6 && off < step + 1e-6 : Math.abs(off) <= step / 2 + 1e-6,
            `${picked} for ${needed}`,
          );
        holds(
          !String(tare('RIVET.CHECK', picked, grip, d / 3, 4 * d, 3 * d)).includes('too short'),
          `${picked} is too short for ${grip}`,
        );
        holds(value('RIVET.WEIGHT', picked) > 0, picked);
      },
    );
  });

  it('a thicker grip never takes a shorter rivet; a blind pick holds the grip', () => {
    law([style, diameter, grips, grips], (head, d, a, b) => {
      const dash = (grip: number): number => Number(/-([\d.]+)$/.exec(String(tare('RIVET.PICK', head, d, grip)))?.[1]);
      holds(dash(Math.max(a, b)) >= dash(Math.min(a, b)), `${a}, ${b}`);
      const blind = tare('RIVET.PICK', 'blind', d, a);
      if (!(blind instanceof CellError))
        holds(
          !String(tare('RIVET.CHECK', blind, a, d / 3, 4 * d, 3 * d)).includes('grip'),
          `${String(blind)} for ${a}`,
        );
    });
  });

  it('a check finds the same things in inches and in millimetres', () => {
    law(
      [
        fc.constantFrom('MS20470AD4-4', 'MS20426AD3-4', 'MS20470AD5-8', 'BLIND-AA-42', 'BLIND-AS-64'),
        grips,
        thicknesses,
        between(0.1, 4),
        between(0.05, 1),
      ],
      (rivet, grip, sheet, pitch, edge) => {
        const findings = (...args: Argument[]): number =>
          String(tare('RIVET.CHECK', rivet, ...args)).split('; ').length;
        const mm = [grip, sheet, pitch, edge].map((inches) => inches * 25.4);
        holds(findings(grip, sheet, pitch, edge) === findings(...mm, 'mm-kg'), 'another number of findings');
      },
    );
  });
});

describe('weights of rivets', () => {
  const dashes = whole(3, 6);
  const heads = fc.constantFrom('MS20470AD', 'MS20426AD', 'MS20470DD', 'MS20470A');

  it('are linear in number, more for a longer or thicker one, and the pieces in a pound make a pound', () => {
    law([heads, dashes, whole(4, 15), whole(1, 5000)], (head, dash, length, count) => {
      const rivet = `${head}${dash}-${length}`;
      const each = value('RIVET.WEIGHT', rivet);
      near(value('RIVET.WEIGHT', rivet, count), count * each);
      near(value('RIVET.PERPOUND', rivet) * value('RIVET.WEIGHT', rivet, 1, 'bought'), 1);
      near(value('RIVET.WEIGHT', rivet, 1, 'bought'), each);
      holds(value('RIVET.WEIGHT', `${head}${dash}-${length + 1}`) > each, 'a longer one weighs no more');
      if (dash < 6) holds(value('RIVET.WEIGHT', `${head}${dash + 1}-${length}`) > each, 'a thicker one weighs no more');
      near(value('RIVET.WEIGHT', rivet.replace('MS20', 'AN')), each);
    });
  });

  it('a blind one is heavier in the bag than in the airplane', () => {
    law(
      [fc.constantFrom('AA', 'AS', 'SS'), fc.constantFrom('32', '42', '44', '52', '64', '66'), whole(1, 500)],
      (pair, size, count) => {
        const rivet = `BLIND-${pair}-${size}`;
        holds(value('RIVET.WEIGHT', rivet, count, 'bought') > value('RIVET.WEIGHT', rivet, count), rivet);
      },
    );
  });

  it('holes are wider than the rivet, their metal linear in grip and number, shear more for a thicker one', () => {
    law(
      [heads.filter((head) => head !== 'MS20470A'), dashes, whole(4, 15), grips, METALS, whole(1, 500), factors],
      (head, dash, length, grip, metal, count, k) => {
        const rivet = `${head}${dash}-${length}`;
        const hole = value('RIVET.HOLE', rivet);
        holds(hole > dash / 32 && hole < dash / 32 + 0.02, `${hole} for ${dash}/32`);
        const metalOut = value('RIVET.HOLEMETAL', rivet, grip, metal, count);
        near(metalOut, value('WEIGHT.BAR', hole, grip, metal, count));
        near(value('RIVET.HOLEMETAL', rivet, grip * k, metal, count), k * metalOut);
        if (dash < 6)
          holds(
            value('RIVET.SHEAR', `${head}${dash + 1}-${length}`) > value('RIVET.SHEAR', rivet),
            'a thicker one holds no more',
          );
        near(value('RIVET.SHEAR', `${head}${dash}-${length + 1}`), value('RIVET.SHEAR', rivet));
      },
    );
  });

  it('hours are linear in number and minutes', () => {
    law([whole(0, 5000), between(0.1, 30)], (count, minutes) =>
      near(value('RIVET.HOURS', count, minutes) * 60, count * minutes),
    );
  });
});

describe('options side by side', () => {
  const PRICES = [
    ['Item', 'Kind', 'Sold by', 'Contents', 'Price', 'Currency', 'From'],
    ...[3, 4, 5, 6, 7, 8].map((length) => [`MS20470AD4-${length}`, 'rivet', 'lb', '', 30.1 + length / 100, 'USD', '']),
    ...[1, 2, 3, 4, 5, 6, 7, 8].map((grip) => [`BLIND-AA-4${grip}`, 'rivet', '100', '', 7.49, 'USD', '']),
  ];
  const joints = fc.array(fc.tuple(between(0.05, 0.3), whole(1, 900)), { minLength: 1, maxLength: 6 });

  it('have totals of their parts to the cent, differences from the first, and ask not for the order of joints', () => {
    law([joints, between(1, 90), orders], (list, rate, keys) => {
      const compare = (some: typeof list) =>
        table(
          'RIVET.COMPARE',
          column(some.map(([grip]) => grip)),
          column(some.map(() => 0.125)),
          column(some.map(([, count]) => count)),
          [['solid'], ['blind AA']],
          PRICES,
          rate,
        ).map((line) => line.map(Number));
      const rows = compare(list);
      for (const [rivets, installed, bought, material, labour, total, costDifference, weightDifference] of rows) {
        holds(rivets === list.reduce((sum, [, count]) => sum + count, 0), 'rivets');
        holds(bought! >= installed! * (1 - 1e-12), 'less bought than installed');
        holds(
          Math.round(total! * 100) === Math.round(material! * 100) + Math.round(labour! * 100),
          'the total is not its parts',
        );
        holds(
          Math.round(costDifference! * 100) === Math.round(total! * 100) - Math.round(rows[0]![5]! * 100),
          'cost difference',
        );
        near(weightDifference!, installed! - rows[0]![1]!, installed);
      }
      compare(shuffled(list, keys)).forEach((line, r) =>
        line.forEach((cell, c) => near(cell, rows[r]![c]!, rows[r]![1])),
      );
    });
  });
});
