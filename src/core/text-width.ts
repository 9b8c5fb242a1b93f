/** How wide a text comes out, so that labels and columns can be laid out without a browser. */

/**
 * Advance widths of U+0020 to U+007E in hundredths of the font size, rounded up, as DejaVu Sans has them: the widest of
 * the common interface fonts, so that text set in another stays inside the room that it was given.
 */
const WIDTHS = [
  32, 41, 46, 84, 64, 96, 78, 28, 40, 40, 50, 84, 32, 37, 32, 34, 64, 64, 64, 64, 64, 64, 64, 64, 64, 64, 34, 34, 84,
  84, 84, 54, 100, 69, 69, 70, 78, 64, 58, 78, 76, 30, 30, 66, 56, 87, 75, 79, 61, 79, 70, 64, 62, 74, 69, 99, 69, 62,
  69, 40, 34, 40, 84, 50, 50, 62, 64, 55, 64, 62, 36, 64, 64, 28, 28, 58, 28, 98, 64, 62, 64, 64, 42, 53, 40, 64, 60,
  82, 60, 60, 53, 64, 34, 64, 84,
];
/** The same of its bold face, which is wider by a tenth for some letters and by a quarter for others. */
const BOLD_WIDTHS = [
  35, 46, 53, 84, 70, 101, 88, 31, 46, 46, 53, 84, 38, 42, 38, 37, 70, 70, 70, 70, 70, 70, 70, 70, 70, 70, 40, 40, 84,
  84, 84, 59, 100, 78, 77, 74, 84, 69, 69, 83, 84, 38, 38, 78, 64, 100, 84, 86, 74, 86, 78, 73, 69, 82, 78, 111, 78, 73,
  73, 46, 37, 46, 84, 50, 50, 68, 72, 60, 72, 68, 44, 72, 72, 35, 35, 67, 35, 105, 72, 69, 72, 72, 50, 60, 48, 72, 66,
  93, 65, 66, 59, 72, 37, 72, 84,
];
const OTHER: Readonly<Record<string, number>> = {
  '·': 32,
  '’': 32,
  '–': 50,
  '²': 41,
  '…': 100,
  '±': 84,
  '−': 84,
  '×': 84,
};
/** Letters with accents are as wide as those without; wider scripts take the whole size. */
const LATIN = 70;
const WIDE = 100;
/** What a sign that has no width above is wider in bold. */
const BOLD = 1.2;

/** Width in pixels of a text in a font size. */
export function textWidth(text: string, size: number, bold = false): number {
  const widths = bold ? BOLD_WIDTHS : WIDTHS;
  let hundredths = 0;
  for (const sign of text) {
    const code = sign.codePointAt(0)!;
    const other = OTHER[sign] ?? (code < 0x2000 ? LATIN : WIDE);
    hundredths += widths[code - 32] ?? other * (bold ? BOLD : 1);
  }
  return (hundredths / 100) * size;
}

/** Pixels of a character as files count the width of a column, and what stays free beside a cell's text. */
const CHARACTER_PX = 7;
const MARGINS_PX = 9;
/** What a cell with a list of choices keeps free besides, for the arrow that opens it. */
const ARROW_PX = 24;

/** Characters of a column's width in which a text of so many pixels is not cut. */
export const columnCharacters = (pixels: number, hasChoices = false): number =>
  (pixels + MARGINS_PX + (hasChoices ? ARROW_PX : 0)) / CHARACTER_PX;
