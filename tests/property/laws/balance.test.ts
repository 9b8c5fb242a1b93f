/** Laws of weighing, moving weight, the envelope, and control surfaces on their hinges. */
import fc from 'fast-check';
import { describe, it } from 'vitest';
import { CellError, type Matrix } from '../../../src/sheet';
import {
  between,
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

const FAR = 400;
const points = fc.array(fc.tuple(between(20, 900), whole(0, 15), stations), { minLength: 2, maxLength: 5 });

describe('weighing', () => {
  it('is the centre of gravity of what the scales show less their tares, in any order', () => {
    law([points, orders], (scales, keys) => {
      const weigh = (some: typeof scales): number[] =>
        row(
          'BALANCE.WEIGHING',
          column(some.map(([reading]) => reading)),
          column(some.map(([, tares]) => tares)),
          column(some.map(([, , arm]) => arm)),
        );
      const [weight, arm, moment] = weigh(scales) as [number, number, number];
      near(weight * arm, moment, weight * FAR);
      const net = column(scales.map(([reading, tares]) => reading - tares));
      near(arm, value('CG', net, column(scales.map(([, , one]) => one))), FAR);
      weigh(shuffled(scales, keys)).forEach((cell, index) => near(cell, [weight, arm, moment][index]!, weight * FAR));
      const arms = scales.map(([, , one]) => one);
      holds(arm >= Math.min(...arms) - 1e-9 && arm <= Math.max(...arms) + 1e-9, `${arm} outside its points`);
    });
  });
});

describe('arms and the chord', () => {
  it('per cent of the chord and arm are a pair', () => {
    law([stations, stations, between(10, 120)], (arm, lemac, mac) => {
      const percent = value('BALANCE.MAC', arm, lemac, mac);
      if (Math.abs(percent) <= 1000) near(value('BALANCE.FROMMAC', percent, lemac, mac), arm, FAR);
      near(value('BALANCE.MAC', lemac, lemac, mac), 0, 100);
      near(value('BALANCE.FROMMAC', 100, lemac, mac), lemac + mac, FAR);
    });
  });

  it('a weight moved and moved back leaves the arm as it was, and moves it as the list of parts says', () => {
    law([between(200, 4000), stations, between(1, 150), stations, stations], (weight, arm, moved, from, to) => {
      const after = value('BALANCE.SHIFT', weight, arm, moved, from, to);
      near(value('BALANCE.SHIFT', weight, after, moved, to, from), arm, FAR);
      near(after, value('CG', column([weight, -moved, moved]), column([arm, from, to])), FAR * 3, 1e-9);
    });
  });

  it('ballast brings the arm to its target', () => {
    law(
      [between(200, 4000), stations, between(0.01, 10), between(1, 300), fc.boolean()],
      (weight, arm, off, beyond, aft) => {
        const side = aft ? 1 : -1;
        const [target, place] = [arm + side * off, arm + side * (off + beyond)];
        const ballast = value('BALANCE.BALLAST', weight, arm, target, place);
        holds(ballast > 0, `${ballast}`);
        // From arms that are near to each other the ballast, and so the arm, keeps fewer digits.
        near(value('CG', column([weight, ballast]), column([arm, place])), target, FAR * 4, 1e-9);
        near(value('BALANCE.BALLAST', 2 * weight, arm, target, place), 2 * ballast);
        holds(
          tare('BALANCE.BALLAST', weight, arm, target, arm - side * beyond) instanceof CellError,
          'ballast on the wrong side',
        );
      },
    );
  });
});

describe('the envelope', () => {
  /** Forward limit sloping aft from a corner upwards, aft limit upright: the usual outline. */
  const envelope = fc
    .tuple(
      between(20, 60),
      between(3, 12),
      between(0, 1).map((share) => share * 0.8),
      between(600, 1500),
      between(1.1, 1.6),
      between(1.05, 1.5),
    )
    .map(([forward, width, slope, light, middle, heavy]): Matrix => [
      [forward, light],
      [forward + width, light],
      [forward + width, light * middle * heavy],
      [forward + width * slope, light * middle * heavy],
      [forward, light * middle],
    ]);
  const where = whole(0, 1000).map((share) => share / 1000);

  it('limits are inside, and what is beyond them is outside', () => {
    law([envelope, where], (corners, share) => {
      const heaviest = Number(corners[2]![1]);
      const weight = Number(corners[0]![1]) + share * (heaviest - Number(corners[0]![1]));
      const [forward, aft] = row('BALANCE.LIMITS', weight, corners) as [number, number];
      const width = Number(corners[1]![0]) - Number(corners[0]![0]);
      holds(forward <= aft, `${forward} aft of ${aft}`);
      for (const arm of [forward, aft, (forward + aft) / 2])
        holds(tare('BALANCE.INSIDE', weight, arm, corners) === true, `${arm} at ${weight} is outside`);
      for (const arm of [forward - width / 1000, aft + width / 1000])
        holds(tare('BALANCE.INSIDE', weight, arm, corners) === false, `${arm} at ${weight} is inside`);
    });
  });

  it('asks not where its list begins nor which way round it goes; the judgement in words is the same', () => {
    law([envelope, where, whole(-200, 1200), whole(1, 4)], (corners, share, along, start) => {
      const weight = Number(corners[0]![1]) * 0.9 + share * Number(corners[2]![1]) * 1.1;
      const arm = Number(corners[0]![0]) + ((Number(corners[1]![0]) - Number(corners[0]![0])) * along) / 1000;
      const inside = tare('BALANCE.INSIDE', weight, arm, corners);
      for (const other of [
        [...corners].reverse(),
        [...corners.slice(start), ...corners.slice(0, start)],
        [...corners, corners[0]!],
        [['arm', 'weight'], ...corners],
      ]) {
        holds(tare('BALANCE.INSIDE', weight, arm, other) === inside, `${String(inside)} becomes another`);
      }
      holds(
        String(tare('BALANCE.JUDGE', weight, arm, corners)).startsWith(inside ? 'inside' : 'outside'),
        String(tare('BALANCE.JUDGE', weight, arm, corners)),
      );
      const column3 = table('BALANCE.INSIDE', column([weight, weight]), column([arm, arm]), corners);
      holds(
        column3.every(([cell]) => cell === inside),
        'a column of it differs',
      );
    });
  });
});

describe('control surfaces', () => {
  const surface = fc.array(fc.tuple(weights, between(0.2, 20)), { minLength: 1, maxLength: 6 });

  it('the counterweight takes the moment away, all of it or its share', () => {
    law([surface, between(0.5, 12), whole(0, 150)], (parts, ahead, percent) => {
      const [all, arms] = [parts.map(([weight]) => weight), parts.map(([, arm]) => arm)];
      const moment = value('HINGE.MOMENT', column(all), column(arms));
      const weight = all.reduce((sum, one) => sum + one, 0);
      const counter = value('HINGE.COUNTERWEIGHT', weight, moment / weight, ahead, percent);
      near(
        value('HINGE.MOMENT', column([...all, counter]), column([...arms, -ahead])),
        moment * (1 - percent / 100),
        moment * 2,
      );
    });
  });

  it('a scale reads the moment: friction up and down falls out, and the arm multiplies', () => {
    law([between(0.01, 5), between(0.001, 0.5), between(2, 30), factors], (reading, friction, arm, k) => {
      const moment = value('HINGE.MEASURED', reading + friction, reading - friction, arm);
      near(moment, reading * arm);
      near(value('HINGE.MEASURED', reading - friction, reading + friction, arm), moment);
      near(value('HINGE.MEASURED', reading, reading, arm * k), moment * k);
    });
  });
});
