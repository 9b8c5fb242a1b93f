/** Number formats that files name by number only. Source: ECMA-376 part 1, 18.8.30 (numFmt). */
export const BUILT_IN_FORMATS: ReadonlyMap<number, string> = new Map([
  [1, '0'],
  [2, '0.00'],
  [3, '#,##0'],
  [4, '#,##0.00'],
  [9, '0%'],
  [10, '0.00%'],
  [11, '0.00E+00'],
  [12, '# ?/?'],
  [13, '# ??/??'],
  [14, 'mm-dd-yy'],
  [15, 'd-mmm-yy'],
  [16, 'd-mmm'],
  [17, 'mmm-yy'],
  [18, 'h:mm AM/PM'],
  [19, 'h:mm:ss AM/PM'],
  [20, 'h:mm'],
  [21, 'h:mm:ss'],
  [22, 'm/d/yy h:mm'],
  [37, '#,##0 ;(#,##0)'],
  [38, '#,##0 ;[Red](#,##0)'],
  [39, '#,##0.00;(#,##0.00)'],
  [40, '#,##0.00;[Red](#,##0.00)'],
  [45, 'mm:ss'],
  [46, '[h]:mm:ss'],
  [47, 'mmss.0'],
  [48, '##0.0E+0'],
  [49, '@'],
]);

/** "2026-03-14" or "2026-03-14T12:00:00" as days since the 1900 epoch; undefined where it is no date. */
export function serialOfIsoDate(text: string): number | undefined {
  const time = Date.parse(/T/.test(text) && !/Z$|[+-]\d\d:\d\d$/.test(text) ? `${text}Z` : text);
  return Number.isNaN(time) ? undefined : time / 86_400_000 + 25_569;
}
