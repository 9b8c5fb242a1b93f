/** Laws of lists of parts: sums, centres of gravity, inertia, budgets and bands. */
import fc from 'fast-check';
import { describe, it } from 'vitest';
import type { Cell, Matrix } from '../../../src/sheet';
import {
  column,
  factors,
  holds,
  law,
  near,
  orders,
  row,
  shuffled,
  stations,
  table,
  tare,
  value,
  weights,
  whole,
} from '../tare';

interface Part {
  readonly group: string;
  readonly weight: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly pieces: number;
}
const part: fc.Arbitrary<Part> = fc.record({
  group: fc.constantFrom('Wing', 'Tail', 'Fuselage', 'wing ', ''),
  weight: weights,
  x: stations,
  y: stations,
  z: stations,
  pieces: whole(1, 12),
});
const parts = fc.array(part, { minLength: 1, maxLength: 12 });

const of = (list: readonly Part[], key: 'weight' | 'x' | 'y' | 'z' | 'pieces'): Matrix =>
  column(list.map((one) => one[key]));
const groupsOf = (list: readonly Part[]): Matrix => column(list.map((one) => one.group));
const placesOf = (list: readonly Part[]): Matrix => list.map(({ x, y, z }) => [x, y, z]);
const gross = (list: readonly Part[]): number => list.reduce((sum, one) => sum + one.weight * one.pieces, 0);
/** Of moments: what they may be off by is a share of the largest, since they cancel. */
const FAR = 400;

describe('weight, moment and centre of gravity', () => {
  it('moment is weight times arm, and the centre stands between the arms', () => {
    law([parts], (list) => {
      const args = [of(list, 'weight'), of(list, 'x'), of(list, 'pieces')];
      const [moment, center] = [value('MOMENT', ...args), value('CG', ...args)];
      near(
        moment,
        list.reduce((sum, one) => sum + one.weight * one.pieces * one.x, 0),
        gross(list) * FAR,
      );
      near(moment, gross(list) * center, gross(list) * FAR);
      const arms = list.map(({ x }) => x);
      holds(
        center >= Math.min(...arms) - 1e-9 && center <= Math.max(...arms) + 1e-9,
        `${center} outside ${String(arms)}`,
      );
      near(
        value('HINGE.MOMENT', column(list.map((one) => one.weight * one.pieces)), of(list, 'x')),
        moment,
        gross(list) * FAR,
      );
    });
  });

  it('ask for no order, no datum and no scale; pieces are rows', () => {
    law([parts, orders, stations, factors], (list, keys, datum, k) => {
      const args = (some: readonly Part[]): Matrix[] => [of(some, 'weight'), of(some, 'x'), of(some, 'pieces')];
      const center = value('CG', ...args(list));
      near(value('CG', ...args(shuffled(list, keys))), center, FAR);
      near(value('CG', ...args(list.map((one) => ({ ...one, x: one.x + datum })))), center + datum, FAR);
      near(value('CG', ...args(list.map((one) => ({ ...one, weight: one.weight * k })))), center, FAR);
      const rows = list.flatMap((one) => Array.from({ length: one.pieces }, () => ({ ...one, pieces: 1 })));
      near(value('MOMENT', ...args(rows)), value('MOMENT', ...args(list)), gross(list) * FAR);
    });
  });

  it('three axes are three times one, and a blank row changes nothing', () => {
    law([parts], (list) => {
      const three = tare('CG', of(list, 'weight'), placesOf(list), of(list, 'pieces')) as Matrix;
      // Three weights with one row of three arms are a list of arms.
      (['x', 'y', 'z'] as const).forEach((axis, index) =>
        near(Number(three[0]![index]), value('CG', of(list, 'weight'), of(list, axis), of(list, 'pieces')), FAR),
      );
      const blank = (block: Matrix): Matrix => block.flatMap((cells): Matrix => [cells, cells.map(() => null)]);
      near(
        value('CG', blank(of(list, 'weight')), blank(of(list, 'x')), blank(of(list, 'pieces'))),
        Number(three[0]![0]),
        FAR,
      );
    });
  });

  it('what is taken off undoes what was put on', () => {
    law([parts, part], (list, extra) => {
      const off = [...list, extra, { ...extra, weight: -extra.weight }];
      near(
        value('CG', of(off, 'weight'), of(off, 'x'), of(off, 'pieces')),
        value('CG', of(list, 'weight'), of(list, 'x'), of(list, 'pieces')),
        (FAR * gross(off.map((one) => ({ ...one, weight: Math.abs(one.weight) })))) / gross(list),
      );
    });
  });
});

describe('roll-up', () => {
  const roll = (list: readonly Part[]): Map<string, number[]> =>
    new Map(
      table('ROLLUP', groupsOf(list), of(list, 'weight'), placesOf(list), of(list, 'pieces')).map(
        ([name, ...cells]) => [String(name).trim().toLowerCase(), cells.map(Number)],
      ),
    );

  it('asks for no order of the rows', () => {
    law([parts, orders], (list, keys) => {
      const [one, other] = [roll(list), roll(shuffled(list, keys))];
      holds(one.size === other.size, 'another number of groups');
      for (const [name, cells] of one)
        cells.forEach((cell, index) =>
          near(
            other.get(name)![index]!,
            cell,
            index === 0 ? undefined : index === 1 || index === 3 || index === 5 ? FAR : gross(list) * FAR,
          ),
        );
    });
  });

  it('groups sum to the total, and the total asks for no grouping', () => {
    law([parts], (list) => {
      const groups = roll(list);
      const total = groups.get('total')!;
      const sum = (index: number): number =>
        [...groups].reduce((all, [name, cells]) => (name === 'total' ? all : all + cells[index]!), 0);
      near(total[0]!, gross(list));
      near(sum(0), total[0]!);
      for (const moment of [2, 4, 6]) near(sum(moment), total[moment]!, gross(list) * FAR);
      const single = roll(list.map((one) => ({ ...one, group: 'All' })));
      single.get('all')!.forEach((cell, index) => {
        near(single.get('total')![index]!, cell, FAR * gross(list));
        near(total[index]!, cell, FAR * gross(list));
      });
      near(total[1]!, value('CG', of(list, 'weight'), of(list, 'x'), of(list, 'pieces')), FAR);
    });
  });
});

describe('left and right', () => {
  const mirrored = (list: readonly Part[]): number[][] =>
    table('MIRROR', of(list, 'weight'), placesOf(list)).map((cells) => cells.map(Number));

  it('a wing with its image balances on the centre line', () => {
    law([parts], (list) => {
      const both = mirrored(list);
      const pairs = list.filter(({ y }) => y !== 0).length;
      holds(both.length === list.length + pairs, `${both.length} parts`);
      const [all, places] = [column(both.map(([weight]) => weight!)), both.map((cells) => cells.slice(1))];
      const [, x, y, z, , , , xy, , yz] = row('INERTIA', all, places);
      const [scale, pounds] = [FAR, both.reduce((sum, [weight]) => sum + weight!, 0)];
      near(y!, 0, scale);
      near(xy!, 0, pounds * scale * scale);
      near(yz!, 0, pounds * scale * scale);
      const center = (tare('CG', all, places) as Matrix)[0]!.map(Number);
      near(center[0]!, x!, scale);
      near(center[1]!, 0, scale);
      near(center[2]!, z!, scale);
    });
  });

  it('twice the weight of what stands off the centre line, in the same place fore and aft', () => {
    law([parts], (list) => {
      const both = mirrored(list);
      near(
        both.reduce((sum, [weight]) => sum + weight!, 0),
        list.reduce((sum, { weight, y }) => sum + (y === 0 ? 1 : 2) * weight, 0),
      );
      const off = list.filter(({ y }) => y !== 0);
      if (off.length === 0) return;
      const images = mirrored(off);
      near(
        value('CG', column(images.map(([weight]) => weight!)), column(images.map(([, x]) => x!))),
        value('CG', of(off, 'weight'), of(off, 'x')),
        FAR,
      );
    });
  });
});

describe('inertia', () => {
  const about = (list: readonly Part[], ...more: Matrix[]): number[] =>
    row('INERTIA', of(list, 'weight'), placesOf(list), ...more);
  const size = (list: readonly Part[]): number => list.reduce((sum, one) => sum + one.weight, 0) * FAR * FAR;

  it('asks for no order and no datum, and is in proportion to weight', () => {
    law([parts, orders, stations, factors], (list, keys, datum, k) => {
      const inertia = about(list).slice(4);
      const same = (others: readonly number[], factor = 1): void =>
        inertia.forEach((cell, index) => near(others[index + 4]!, cell * factor, size(list) * Math.max(1, factor) * 4));
      same(about(shuffled(list, keys)));
      same(about(list.map((one) => ({ ...one, x: one.x + datum, y: one.y - datum, z: one.z + datum / 2 }))));
      same(about(list.map((one) => ({ ...one, weight: one.weight * k }))), k);
    });
  });

  it('is least about the centre of gravity, by the parallel axis theorem; no axis exceeds the other two together', () => {
    law([parts, stations, stations, stations], (list, px, py, pz) => {
      const [weight, x, y, z, xx, yy, zz, xy] = about(list) as [
        number,
        number,
        number,
        number,
        number,
        number,
        number,
        number,
      ];
      const [, , , , pxx, pyy, pzz, pxy] = row('INERTIA', of(list, 'weight'), placesOf(list), null, [[px, py, pz]]) as [
        number,
        number,
        number,
        number,
        number,
        number,
        number,
        number,
      ];
      const [dx, dy, dz] = [x - px, y - py, z - pz];
      const scale = size(list) * 4;
      near(pxx, value('INERTIA.PARALLEL', Math.max(0, xx), weight, Math.min(12_000, Math.hypot(dy, dz))), scale);
      near(pyy, yy + weight * (dx * dx + dz * dz), scale);
      near(pzz, zz + weight * (dx * dx + dy * dy), scale);
      near(pxy, xy + weight * dx * dy, scale);
      for (const [one, two, three] of [
        [xx, yy, zz],
        [yy, zz, xx],
        [zz, xx, yy],
      ] as const)
        holds(one <= two + three + scale * 1e-12 && one >= -scale * 1e-12, `${one}, ${two}, ${three}`);
    });
  });

  const sizes = whole(1, 400).map((tenths) => tenths / 10);
  const axis = fc.constantFrom('x', 'y', 'z');

  it('of solids: a tube without bore is a rod, a tube is a rod less a rod, a slender plate is a rod', () => {
    law([weights, sizes, sizes, axis, whole(5, 45)], (weight, length, diameter, along, percent) => {
      const rod = row('INERTIA.ROD', weight, length, along, diameter);
      row('INERTIA.TUBE', weight, length, diameter, diameter / 2, along).forEach((cell, index) =>
        near(cell, rod[index]!),
      );
      const bore = diameter * (1 - percent / 50);
      const share = (bore / diameter) ** 2;
      // A rod of the tube's density, and the bore as a rod of the same.
      const [whole, hole] = [
        row('INERTIA.ROD', weight / (1 - share), length, along, diameter),
        row('INERTIA.ROD', (weight * share) / (1 - share), length, along, bore),
      ];
      row('INERTIA.TUBE', weight, length, diameter, (diameter - bore) / 2, along).forEach((cell, index) =>
        near(cell, whole[index]! - hole[index]!, whole[index]),
      );
      const slender = row('INERTIA.ROD', weight, length, along, 0);
      const sides = ['x', 'y', 'z'].map((one) => (one === along ? length : 0));
      row('INERTIA.PLATE', weight, ...sides).forEach((cell, index) => near(cell, slender[index]!));
    });
  });

  it('of a plate cut in two is that of its halves, each at its place', () => {
    law([weights, sizes, sizes, sizes], (weight, a, b, c) => {
      const own = row('INERTIA.PLATE', weight, a, b, c);
      const half = row('INERTIA.PLATE', weight / 2, a / 2, b, c);
      const joined = row(
        'INERTIA',
        column([weight / 2, weight / 2]),
        [
          [a / 4, 0, 0],
          [-a / 4, 0, 0],
        ],
        [half, half],
      );
      own.forEach((cell, index) => near(joined[4 + index]!, cell));
    });
  });
});

describe('bands, growth, budget and bias', () => {
  const statuses = fc.constantFrom('estimated', 'laid out', 'released', 'existing', 'weighed');
  const listed = fc.array(fc.tuple(part, whole(0, 100), statuses), { minLength: 1, maxLength: 10 });

  it('a likely band is no wider than the worst, and no narrower than its widest part', () => {
    law([listed, orders], (list, keys) => {
      const band = (some: typeof list): Cell[][] =>
        table(
          'ROLLUP.BAND',
          groupsOf(some.map(([one]) => one)),
          of(
            some.map(([one]) => one),
            'weight',
          ),
          column(some.map(([, percent]) => percent / 1000)),
          of(
            some.map(([one]) => one),
            'pieces',
          ),
        );
      const rows = band(list);
      for (const cells of rows)
        holds(
          Number(cells[2]) <= Number(cells[3]) * (1 + 1e-12),
          `likely ${String(cells[2])}, worst ${String(cells[3])}`,
        );
      const total = rows.at(-1)!.map(Number);
      const single = list.map(([{ weight, pieces }, percent]) => (weight * pieces * percent) / 1000);
      near(
        total[3]!,
        single.reduce((sum, one) => sum + one, 0),
      );
      near(total[2]!, Math.hypot(...single));
      holds(total[2]! >= Math.max(...single) * (1 - 1e-12), 'narrower than one of its parts');
      const other = band(shuffled(list, keys)).at(-1)!.map(Number);
      [1, 2, 3].forEach((index) => near(other[index]!, total[index]!));
      // In one lot all errors go the same way.
      const lot = tare(
        'ROLLUP.BAND',
        'A',
        of(
          list.map(([one]) => one),
          'weight',
        ),
        column(list.map(([, percent]) => percent / 1000)),
        of(
          list.map(([one]) => one),
          'pieces',
        ),
        'lot',
      ) as Matrix;
      near(Number(lot[0]![2]), total[3]!);
    });
  });

  it('a budget is the sum of its lines, its forecast what GROWTH says, its margin what is left', () => {
    law([listed, fc.array(weights, { minLength: 3, maxLength: 3 }), orders], (list, goals, keys) => {
      const budget = (some: typeof list): Cell[][] =>
        table(
          'BUDGET',
          groupsOf(some.map(([one]) => one)),
          of(
            some.map(([one]) => one),
            'weight',
          ),
          column(some.map(([, , status]) => status)),
          column(['Wing', 'Tail', 'Fuselage']),
          column(goals),
        );
      const rows = budget(list);
      const total = rows.at(-1)!.map(Number);
      for (const index of [1, 2, 3])
        near(
          rows.slice(0, -1).reduce((sum, cells) => sum + Number(cells[index]), 0),
          total[index]!,
        );
      near(
        total[2]!,
        list.reduce((sum, [{ weight }, , status]) => sum + value('GROWTH', weight, status), 0),
      );
      for (const cells of rows) {
        if (cells[3] !== '')
          near(Number(cells[4]), Number(cells[3]) - Number(cells[2]), Number(cells[3]) + Number(cells[2]));
        holds(Number(cells[2]) >= Number(cells[1]) * (1 - 1e-12), 'a forecast below the weight');
        if (cells[6] !== '')
          holds(Number(cells[6]) >= 0 && Number(cells[6]) <= 100 + 1e-9, `${String(cells[6])} % weighed`);
      }
      budget(shuffled(list, keys))
        .at(-1)!
        .forEach(
          (cell, index) =>
            index > 0 &&
            near(
              Number(cell),
              total[index]!,
              index >= 4 ? (total[2]! + total[3]!) * (index === 5 ? 100 / total[3]! : 1) : undefined,
            ),
        );
    });
  });

  it('growth is in proportion to weight, and less the further a part has come', () => {
    law([weights, factors], (weight, k) => {
      const grown = ['estimated', 'laid out', 'released', 'existing', 'weighed'].map((status) => {
        near(value('GROWTH', weight * k, status), k * value('GROWTH', weight, status));
        return value('GROWTH', weight, status);
      });
      grown.slice(1).forEach((one, index) => holds(one <= grown[index]!, String(grown)));
      near(grown.at(-1)!, weight);
    });
  });

  it('a list that is right has no bias; one that is off by a factor has just that', () => {
    law([fc.array(weights, { minLength: 2, maxLength: 8 }), factors, orders], (computed, k, keys) => {
      const bias = row('BIAS', column(computed), column(computed.map((one) => one * k)));
      near(bias[3]!, 100 * (k - 1), 400);
      holds(Math.abs(bias[4]!) < 1e-4, `± ${bias[4]} without scatter`);
      const other = row(
        'BIAS',
        column(shuffled(computed, keys)),
        column(shuffled(computed, keys).map((one) => one * k)),
      );
      near(other[3]!, bias[3]!, 400);
    });
  });
});

describe('stations', () => {
  it('are evenly spaced from the first to the last, and backwards the same', () => {
    law([stations, stations, whole(2, 60)], (first, last, count) => {
      const list = table('STATIONS', first, last, count).map(([one]) => Number(one));
      holds(
        list.length === count && list[0] === first + 0 && list.at(-1) === last + 0,
        `${list.length}: ${list[0]} to ${list.at(-1)}`,
      );
      list.slice(1).forEach((one, index) => near(one - list[index]!, (last - first) / (count - 1), FAR));
      table('STATIONS', last, first, count).forEach(([one], index) => near(Number(one), list[count - 1 - index]!, FAR));
    });
  });
});
