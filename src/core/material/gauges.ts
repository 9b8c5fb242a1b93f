/**
 * Brown & Sharpe (American wire) gauge, the gauge of non-ferrous sheet and wire.
 *
 * ASTM B258: 0000 is .4600 in, 36 is .0050 in, and the 39 steps between are in geometric progression:
 * t = .005 · 92^((36 − n)/39), rounded to .0001 in for the gauges 4/0 to 44. (Steel sheet has a gauge of its own.)
 */
import { InputError, NotListedError } from '../input-error';

/** 0000 is −3 in the formula, 000 −2, 00 −1. @internal */
export const THICKEST_GAUGE = -3;
/** @internal */
export const THINNEST_GAUGE = 40;

/** Thickness of gauge number n (−3 for 0000), inches, as the standard prints it. */
export const gaugeThickness = (n: number): number => PRINTED[n - THICKEST_GAUGE] ?? printed(n);

const printed = (n: number): number => Math.round(0.005 * 92 ** ((36 - n) / 39) * 1e4) / 1e4;
const PRINTED: readonly number[] = Array.from({ length: THINNEST_GAUGE - THICKEST_GAUGE + 1 }, (_, index) =>
  printed(THICKEST_GAUGE + index),
);

/** "20" for 20, "4/0" for −3: how a gauge number is written. */
export const gaugeName = (n: number): string => (n > 0 ? String(n) : `${1 - n}/0`);

const TAKES = `a Brown & Sharpe gauge from "4/0" (also written "0000") to ${THINNEST_GAUGE}`;

/**
 * The number of a gauge as it is written: "20", "#20", "20 ga", "0000", "4/0".
 * @throws InputError for what is no gauge, NotListedError for one beyond the table.
 */
export function parseGauge(written: string | number, parameter = 'gauge'): number {
  const text = String(written)
    .trim()
    .replace(/^#|\s*(?:ga|gauge|gage|awg|b&s)\.?$/gi, '')
    .trim();
  const aught = /^0{1,4}$/.test(text) ? text.length : /^[1-4]\/0$/.test(text) ? Number(text[0]) : 0;
  if (aught > 0) return 1 - aught;
  const n = Number(text);
  if (!/^[+-]?\d+(\.\d+)?$/.test(text) || !Number.isInteger(n)) {
    throw new InputError(
      parameter,
      written,
      TAKES,
      n > 0 && n < 1 ? 'That looks like a thickness in inches: the nearest gauge is given by GAUGE.NEAREST' : undefined,
    );
  }
  if (n < 1 || n > THINNEST_GAUGE)
    throw new NotListedError(
      parameter,
      written,
      TAKES,
      n < 1 ? 'The gauges thicker than 1 are written "1/0" to "4/0"' : undefined,
    );
  return n;
}

/**
 * The gauge whose printed thickness is nearest to a thickness in inches.
 * @throws InputError beyond half a step outside the table.
 */
export function nearestGauge(thickness: number, parameter = 'thickness'): number {
  const thickest = gaugeThickness(THICKEST_GAUGE);
  const thinnest = gaugeThickness(THINNEST_GAUGE);
  if (!(thickness <= thickest * 1.06 && thickness >= thinnest * 0.94)) {
    const both = (inches: number): string => `${inches} in (${Number((inches * 25.4).toPrecision(3))} mm)`;
    throw new InputError(
      parameter,
      thickness,
      `a thickness from ${both(thinnest)}, which is gauge ${THINNEST_GAUGE}, to ${both(thickest)}, gauge 4/0`,
    );
  }
  const guess = Math.round(36 - (39 * Math.log(thickness / 0.005)) / Math.log(92));
  const off = (n: number): number => Math.abs(gaugeThickness(n) - thickness);
  return [guess - 1, guess, guess + 1]
    .filter((n) => n >= THICKEST_GAUGE && n <= THINNEST_GAUGE)
    .reduce((best, n) => (off(n) < off(best) ? n : best));
}
