/** Numbers as text in the simple number formats: digits, a decimal point, thousands, per cent. */

const SIMPLE = /^(#,#)?([#0]*)(?:\.(0*)(#*))?(%)?$/;

/** False for dates, sections, colours and words: those formats are not known here. */
export const isSimpleFormat = (format: string): boolean => format !== '' && SIMPLE.test(format);

/** "0.020" for 0.02 in "0.000", ".020" in ".000"; rounded half away from zero. `format` is a simple one. */
export function numberText(value: number, format: string): string {
  const [, thousands, whole = '', fixed = '', loose = '', percent = ''] = SIMPLE.exec(format)!;
  const digits = rounded(Math.abs(value) * (percent ? 100 : 1), fixed.length + loose.length);
  const [left = '', right = ''] = digits.split('.');
  const least = whole.length - whole.search(/0|$/);
  const padded = (left === '0' ? '' : left).padStart(least, '0');
  const grouped = thousands ? padded.replace(/\B(?=(\d{3})+$)/g, ',') : padded;
  const decimals = fixed.length + [...right.slice(fixed.length).replace(/0+$/, '')].length;
  const point = format.includes('.') ? `.${right.slice(0, decimals)}` : '';
  const sign = value < 0 && /[1-9]/.test(digits) ? '-' : '';
  return `${sign}${grouped}${point}${percent}`;
}

/** As the number is written in decimals: 1.005 to two places is 1.01, though its binary value lies below. */
function rounded(value: number, places: number): string {
  const text = String(Number(value.toPrecision(15)));
  if (text.includes('e')) return value.toFixed(places);
  return Number(`${Math.round(Number(`${text}e${places}`))}e-${places}`).toFixed(places);
}
