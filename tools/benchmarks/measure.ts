/** What a benchmark says, and how it is printed. */

export interface Measure {
  readonly part: string;
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  /** The same work done by something else, in the same unit. */
  readonly against?: { readonly name: string; readonly value: number };
  /** At most: of the value, or of its ratio to the counterpart. */
  readonly bar?: { readonly most: number; readonly of: 'value' | 'ratio' } | undefined;
  /** Judged otherwise than by the value alone: true where the bar is met. */
  readonly met?: boolean | undefined;
  readonly note?: string;
}

/** Says something of the run, and what it measured; a part that cannot run here says why and returns nothing. */
export type Part = (options: PartOptions) => Promise<readonly Measure[]>;

export interface PartOptions {
  /** Runs of which the best counts. */
  readonly runs: number;
  /** A line about what is under way, or left out. */
  say(line: string): void;
}

/** To the counterpart, where there is one; else to the bar. */
export function ratioOf({ value, against, bar }: Measure): number | undefined {
  if (against) return value / against.value;
  return bar ? value / bar.most : undefined;
}

export function isMet(measure: Measure): boolean | undefined {
  if (measure.met !== undefined) return measure.met;
  const { bar, value } = measure;
  return bar && (bar.of === 'ratio' ? ratioOf(measure)! : value) <= bar.most;
}

const figure = (value: number): string =>
  value >= 100 ? Math.round(value).toLocaleString('en-US') : value.toPrecision(3);

/** Aligned lines: measure, counterpart, ratio, bar. */
export function table(measures: readonly Measure[]): string {
  const rows = measures.map((measure) => {
    const { name, value, unit, against, bar, note } = measure;
    const ratio = ratioOf(measure);
    const met = isMet(measure);
    const ofWhat = against ? '' : ' of the bar';
    return [
      name,
      `${figure(value)} ${unit}`,
      against ? `${against.name} ${figure(against.value)} ${unit}` : '',
      ratio === undefined ? '' : `${ratio.toFixed(2)}×${ofWhat}`,
      bar ? `bar ${figure(bar.most)}${bar.of === 'ratio' ? '×' : ` ${unit}`}` : 'no bar',
      met === undefined ? '' : met ? 'met' : 'MISSED',
      note ?? '',
    ];
  });
  const widths = rows[0]?.map((_cell, column) => Math.max(...rows.map((row) => row[column]!.length))) ?? [];
  const rightAligned = new Set([1, 3]);
  return rows
    .map((row) =>
      `  ${row.map((cell, column) => (rightAligned.has(column) ? cell.padStart(widths[column]!) : cell.padEnd(widths[column]!))).join('  ')}`.trimEnd(),
    )
    .join('\n');
}

export interface Slope {
  /** Of log(cost) over log(rows), by least squares: 1 is linear. */
  readonly slope: number;
  /** Standard error of the slope. */
  readonly error: number;
}

export function logLogSlope(points: readonly (readonly [rows: number, cost: number])[]): Slope {
  const logs = points.map(([rows, cost]) => [Math.log(rows), Math.log(cost)] as const);
  const mean = (index: 0 | 1): number => logs.reduce((sum, point) => sum + point[index], 0) / logs.length;
  const [mx, my] = [mean(0), mean(1)];
  const sxx = logs.reduce((sum, [x]) => sum + (x - mx) ** 2, 0);
  const slope = logs.reduce((sum, [x, y]) => sum + (x - mx) * (y - my), 0) / sxx;
  const residual = logs.reduce((sum, [x, y]) => sum + (y - my - slope * (x - mx)) ** 2, 0);
  return { slope, error: Math.sqrt(residual / (logs.length - 2) / sxx) };
}

/** The least of several runs, by a figure of the result. */
export async function bestOf<T>(runs: number, run: () => T | Promise<T>, figureOf: (result: T) => number): Promise<T> {
  let best = await run();
  for (let i = 1; i < runs; i++) {
    const next = await run();
    if (figureOf(next) < figureOf(best)) best = next;
  }
  return best;
}
