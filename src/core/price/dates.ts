/**
 * Dates as spreadsheets hold them: days counted from 30 December 1899, which gives the 1900 date
 * system's serials from 1 March 1900 on (ECMA-376 part 1, 18.17.4.1).
 */
const DAY = 86_400_000;
const EPOCH = Date.UTC(1899, 11, 30);
const FIRST = 61;
/** 31 December 9999, the last day of the date system. */
const LAST = 2_958_465;

/** "2026-03-31" for a date serial; undefined where the number is no date. */
export function isoFromSerial(serial: number): string | undefined {
  const day = Math.floor(serial);
  if (!(day >= FIRST && day <= LAST)) return undefined;
  return new Date(EPOCH + day * DAY).toISOString().slice(0, 10);
}

/** Date serial of "2026-03-31"; undefined where the text is no date. */
export function serialFromIso(text: string): number | undefined {
  const match = /^(\d{4})-(\d{2})-(\d{2})(?:T.*)?$/.exec(text.trim());
  if (!match) return undefined;
  const time = Date.UTC(Number(match[1]), Number(match[2]) - 1, Number(match[3]));
  const iso = new Date(time).toISOString().slice(0, 10);
  if (iso !== match.slice(1, 4).join('-')) return undefined;
  return Math.round((time - EPOCH) / DAY);
}
