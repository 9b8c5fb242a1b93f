/** How wide a text comes out, so that labels can be laid out without a browser. */

/**
 * Advance widths of U+0020 to U+007E in hundredths of the font size, as DejaVu Sans has them: the widest of
 * the common interface fonts, so that text set in another stays inside the room that it was given.
 */
const WIDTHS = [
  32, 40, 46, 84, 64, 95, 78, 27, 39, 39, 50, 84, 32, 36, 32, 34, 64, 64, 64, 64, 64, 64, 64, 64, 64, 64, 34, 34, 84,
  84, 84, 53, 100, 68, 69, 70, 77, 63, 58, 77, 75, 29, 29, 66, 56, 86, 75, 79, 60, 79, 69, 63, 61, 73, 68, 99, 69, 61,
  69, 39, 34, 39, 84, 50, 50, 61, 63, 55, 63, 62, 35, 63, 63, 28, 28, 58, 28, 97, 63, 61, 63, 63, 41, 52, 39, 63, 59,
  82, 59, 59, 52, 64, 34, 64, 84,
];
const OTHER: Readonly<Record<string, number>> = {
  '·': 32,
  '’': 32,
  '–': 50,
  '²': 40,
  '…': 100,
  '±': 84,
  '−': 84,
  '×': 84,
};
/** Letters with accents are as wide as those without; wider scripts take the whole size. */
const LATIN = 70;
const WIDE = 100;
const BOLD = 1.12;

/** Width in pixels of a text in a font size. */
export function textWidth(text: string, size: number, bold = false): number {
  let hundredths = 0;
  for (const sign of text) {
    const code = sign.codePointAt(0)!;
    hundredths += WIDTHS[code - 32] ?? OTHER[sign] ?? (code < 0x2000 ? LATIN : WIDE);
  }
  return (hundredths / 100) * size * (bold ? BOLD : 1);
}

/** The text in lines no wider than `width`: broken at blanks, and inside a word only where the word alone is too wide. */
export function wrapText(text: string, width: number, size: number, bold = false): string[] {
  const fits = (line: string): boolean => textWidth(line, size, bold) <= width;
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter(Boolean)) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (fits(longer)) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    const pieces = broken(word, fits);
    lines.push(...pieces.slice(0, -1));
    line = pieces.at(-1)!;
  }
  return line === '' && lines.length > 0 ? lines : [...lines, line];
}

function broken(word: string, fits: (piece: string) => boolean): string[] {
  const pieces = [''];
  for (const sign of word) {
    const longer = pieces.at(-1)! + sign;
    if (fits(longer) || pieces.at(-1) === '') pieces[pieces.length - 1] = longer;
    else pieces.push(sign);
  }
  return pieces;
}
