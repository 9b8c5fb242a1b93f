/** How many rivets, how far apart, how long. Inches. */
import { InputError } from '../input-error';

/** A division that should come out whole may fall short of it by a binary fraction. This makes up for that before it is rounded down. */
const ROUNDING = 1e-9;

export interface Row {
  readonly run: number;
  readonly pitch: number;
  /** From each end of the run to the first rivet. */
  readonly edge?: number;
  readonly rows?: number;
  /** Every second row is shifted by half a pitch, and has as many rivets as then fit. */
  readonly staggered?: boolean;
}

function available(run: number, edge: number): number {
  const length = run - 2 * edge;
  if (length < -ROUNDING)
    throw new InputError('edge', edge, 'at most half of run, so that the first and the last rivet fit');
  return Math.max(0, length);
}

/** Rivets of a run: in a row floor((run − 2·edge)/pitch) + 1; a shifted row floor((run − 2·edge − pitch/2)/pitch) + 1. */
export function rivetCount({ run, pitch, edge = 0, rows = 1, staggered = false }: Row): number {
  const length = available(run, edge);
  const fits = (space: number): number => (space < -ROUNDING ? 0 : Math.floor(space / pitch + ROUNDING) + 1);
  const straight = fits(length);
  if (!staggered) return straight * rows;
  const shifted = Math.floor(rows / 2);
  return straight * (rows - shifted) + fits(length - pitch / 2) * shifted;
}

/** Pitch of `count` rivets spread evenly over a run. */
export function rivetPitch(run: number, count: number, edge = 0): number {
  if (count < 2) throw new InputError('count', count, 'two rivets or more: one rivet has no pitch');
  const length = available(run, edge);
  if (length <= 0) throw new InputError('edge', edge, 'less than half of run');
  return length / (count - 1);
}

/** Shank of D × 1.5 beyond the grip: AC 43.13-1B ¶4-57; NAVEDTRA 14018 chapter 13. */
export const FORMED_HEAD_ALLOWANCE = 1.5;

/** Length that a solid rivet must have: grip + 1.5 D. A flush rivet's length counts its head, as its grip counts the sheet around it. */
export const rivetLength = (grip: number, diameter: number): number => grip + FORMED_HEAD_ALLOWANCE * diameter;

/** Hours of work. */
export const rivetHours = (count: number, minutesEach: number): number => (count * minutesEach) / 60;

/** Minutes for one rivet, from drilling to inspection: common practice, no source; a builder's own log is better. */
export const MINUTES_EACH = { solid: 1.5, blind: 0.75 } as const;
