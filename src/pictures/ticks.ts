/** Round ticks for an axis. */
import { inEnglish, type Words } from './picture-words';

export interface Ticks {
  readonly values: readonly number[];
  /** Decimals that show every tick as it is. */
  readonly places: number;
}

/** Steps of 1, 2 or 5 times a power of ten: the multiples in a range, at most `most` and as many as fit in. */
export function roundTicks(from: number, to: number, most: number): Ticks {
  if (!(to > from)) return { values: [from], places: 0 };
  const rough = (to - from) / Math.max(1, most - 1);
  let finer: Ticks | undefined;
  for (let exponent = Math.floor(Math.log10(rough)) - 1; ; exponent++) {
    for (const factor of [1, 2, 5]) {
      const ticks = multiples(from, to, factor, exponent);
      // An axis with one number on it has no scale: rather one too many.
      if (ticks.values.length <= Math.max(2, most)) return ticks.values.length < 2 && finer ? finer : ticks;
      finer = ticks;
    }
  }
}

/** Multiples of factor × 10^exponent in a range. */
function multiples(from: number, to: number, factor: number, exponent: number): Ticks {
  const step = factor * 10 ** exponent;
  const first = Math.ceil(from / step - 1e-9);
  const count = Math.floor(to / step + 1e-9) - first + 1;
  const places = Math.max(0, -exponent);
  // Multiplied and rounded, not added up: 0.1 + 0.1 + 0.1 is not 0.3.
  return {
    values: Array.from({ length: Math.max(0, count) }, (_, index) => Number(((first + index) * step).toFixed(places))),
    places,
  };
}

export interface DateTick {
  /** Days since 1 January 1970. */
  readonly day: number;
  readonly label: string;
}

const DAY = 86_400_000;

const monthsOf = (words: Words): readonly string[] => [
  ...[words('Jan'), words('Feb'), words('Mar'), words('Apr'), words('May'), words('Jun')],
  ...[words('Jul'), words('Aug'), words('Sep'), words('Oct'), words('Nov'), words('Dec')],
];

/** Days since 1 January 1970 of "2026-03-31". */
export const dayOf = (iso: string): number => Math.round(Date.parse(`${iso}T00:00:00Z`) / DAY);

/** Firsts of months, quarters or years in a range of days, at most `most`; days where the range is short. */
export function dateTicks(from: number, to: number, most: number, words: Words = inEnglish): DateTick[] {
  const span = to - from;
  if (span < 62) return dayTicks(from, to, most, words);
  const months = monthsOf(words);
  const start = new Date(from * DAY);
  for (const step of [1, 2, 3, 6, 12, 24, 60, 120]) {
    const ticks: DateTick[] = [];
    const firstMonth = Math.floor((start.getUTCFullYear() * 12 + start.getUTCMonth()) / step) * step;
    for (let month = firstMonth; ; month += step) {
      const day = Date.UTC(Math.floor(month / 12), month % 12, 1) / DAY;
      if (day > to) break;
      if (day >= from)
        ticks.push({
          day,
          label: month % 12 === 0 || step >= 12 ? String(Math.floor(month / 12)) : months[month % 12]!,
        });
    }
    if (ticks.length <= most) return withYear(ticks, words);
  }
  return [];
}

function dayTicks(from: number, to: number, most: number, words: Words): DateTick[] {
  const months = monthsOf(words);
  const { values } = roundTicks(0, Math.max(1, to - from), most);
  return values.filter(Number.isInteger).map((offset) => {
    const date = new Date((from + offset) * DAY);
    return {
      day: from + offset,
      label: words('{day} {month}', { day: date.getUTCDate(), month: months[date.getUTCMonth()]! }),
    };
  });
}

/** The first tick says its year, so that no axis is without one. */
function withYear(ticks: DateTick[], words: Words): DateTick[] {
  const [first, ...rest] = ticks;
  if (!first || /\d{4}/.test(first.label) || rest.some(({ label }) => /\d{4}/.test(label))) return ticks;
  return [
    {
      ...first,
      label: words('{month} {year}', { month: first.label, year: String(new Date(first.day * DAY).getUTCFullYear()) }),
    },
    ...rest,
  ];
}
