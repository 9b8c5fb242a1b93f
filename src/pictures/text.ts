/** Texts in lines, so that labels can be laid out without a browser. */
import { textWidth } from '../core/text-width';

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
