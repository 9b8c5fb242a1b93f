/** What has happened to the sample wing so far: which parts were weighed, how sure the rest is, and ten days on which the sum was drawn. */
import type { PartRow } from '../../src/project';

/** On the scale, all pieces of the row, lb. */
export const WEIGHED_PARTS: Readonly<Record<string, number>> = {
  'Web, with 8 lightening holes': 3.83,
  'Upper cap angles': 3.12,
  'Lower cap angles': 2.94,
  Channel: 3.25,
  'Nose ribs': 2.8,
  'Main ribs': 3.49,
  'Root rib': 0.59,
  'Front spar clips': 0.315,
  'Upper zees': 1.5,
  'Counterweight rod': 2.83,
};

/** Budgets cut since the wing was drawn, lb: one component is over. */
export const CUT_BUDGETS: Readonly<Record<string, number>> = { 'Nose skin': 11, Fittings: 8.25 };

/** Hardware is bought by its kind; sheet of released drawings is cut, of laid-out ones not yet. */
export function statusOf({ part, status, area }: PartRow): string {
  if (/bolt|rod end|bearing|light|hinge$/i.test(part)) return 'existing';
  return area === undefined && status === 'laid out' ? 'laid out' : status;
}

/** ± of a row: sheet by its mill, hardware by its kind, allowances by guess. */
export function toleranceOf({ part, area }: PartRow): number {
  if (/allowance|line$/i.test(part)) return 0.25;
  return area === undefined ? 0.02 : 0.05;
}

export interface LoggedDay {
  readonly date: string;
  readonly note: string;
  /** Share of what each component weighs now; "all" for those that are not named. */
  readonly shares: Readonly<Record<string, number>>;
  /** Growth still expected on that day. */
  readonly growth: number;
}

export const LOGGED: readonly LoggedDay[] = [
  {
    date: '2025-11-08',
    note: 'first estimate from the three-view',
    shares: { all: 0.86, 'Front spar': 0.82, Ribs: 0.79, Fittings: 0.9 },
    growth: 0.25,
  },
  {
    date: '2025-12-13',
    note: 'skins and spars laid out',
    shares: { all: 0.9, 'Front spar': 0.85, Ribs: 0.81, Fittings: 0.92 },
    growth: 0.21,
  },
  {
    date: '2026-01-17',
    note: 'hinges and push rods added',
    shares: { all: 0.93, 'Front spar': 0.88, Ribs: 0.86, Flap: 0.97 },
    growth: 0.18,
  },
  {
    date: '2026-02-21',
    note: 'designer asks for thicker spar caps',
    shares: { all: 0.94, 'Front spar': 1.03, Ribs: 0.88, Flap: 0.98 },
    growth: 0.16,
  },
  { date: '2026-03-28', note: '', shares: { all: 0.96, 'Front spar': 1.03, Ribs: 0.93, Flap: 1 }, growth: 0.15 },
  {
    date: '2026-05-02',
    note: 'lower skins from .020 to .016',
    shares: { all: 0.98, 'Front spar': 1.02, 'Main skins': 1.02, Ribs: 0.95 },
    growth: 0.14,
  },
  {
    date: '2026-06-06',
    note: 'lightening holes in the spar web',
    shares: { all: 0.99, 'Front spar': 0.99, 'Main skins': 1, Ribs: 0.96 },
    growth: 0.12,
  },
  {
    date: '2026-07-11',
    note: 'rear spar channel on the scale',
    shares: { all: 0.99, 'Rear spar': 0.98, Ribs: 0.97 },
    growth: 0.11,
  },
  {
    date: '2026-08-15',
    note: 'ribs on the scale, heavier than listed',
    shares: { all: 1, Ribs: 0.99, Aileron: 0.985 },
    growth: 0.1,
  },
  { date: '2026-09-26', note: 'front spar on the scale', shares: { all: 1, Aileron: 0.99, Tip: 0.97 }, growth: 0.09 },
];
