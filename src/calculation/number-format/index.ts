/** Values as texts in a number format. */
import { numberText } from '../values';
import { dateText } from './date-time';
import { digitsText } from './number';
import { meets, sectionsOf, type Section } from './sections';

const KNOWN = new Map<string, readonly Section[]>();
const MOST_KNOWN = 500;

function known(format: string): readonly Section[] {
  let sections = KNOWN.get(format);
  if (!sections) {
    if (KNOWN.size >= MOST_KNOWN) KNOWN.clear();
    KNOWN.set(format, (sections = sectionsOf(format)));
  }
  return sections;
}

/** A number in a format; undefined where the format has no text for it (a negative date). */
export function formattedNumber(value: number, format: string): string | undefined {
  if (format === '') return '';
  const sections = known(format);
  const { section, showsSign } = chosen(value, sections);
  if (!section) return undefined;
  const sign = value < 0 && showsSign ? '-' : '';
  if (section.isDate) return dateText(value, section);
  if (section.pieces.some(({ kind }) => kind === 'general' || kind === 'at'))
    return (
      sign +
      section.pieces
        .map(({ kind, text }) => (kind === 'general' || kind === 'at' ? numberText(Math.abs(value)) : text))
        .join('')
    );
  const hasDigits = section.pieces.some(({ kind }) => kind === 'digit');
  if (!hasDigits && sections.length === 1 && section.pieces.length === 0) return '';
  return sign + (hasDigits ? digitsText(Math.abs(value), section) : section.pieces.map(({ text }) => text).join(''));
}

/** A text in a format: the fourth section's, or one with "@"; else the text. */
export function formattedText(text: string, format: string): string {
  const sections = known(format);
  const section = sections[3] ?? sections.find(({ pieces }) => pieces.some(({ kind }) => kind === 'at'));
  if (!section) return text;
  return section.pieces.map((piece) => (piece.kind === 'at' ? text : piece.text)).join('');
}

/** Sections are for positive numbers, negative ones (which lose their sign) and 0, unless conditions say otherwise. */
function chosen(value: number, sections: readonly Section[]): { section: Section | undefined; showsSign: boolean } {
  const numeric = sections.slice(0, 3);
  if (numeric.some(({ condition }) => condition)) {
    const index = numeric.findIndex(({ condition }, at) =>
      condition ? meets(value, condition) : at === numeric.length - 1 || isDefault(value, at),
    );
    const limit = numeric[index]?.condition;
    return { section: numeric[index], showsSign: !(limit?.operator.startsWith('<') && limit.limit <= 0) };
  }
  if (numeric.length === 1) return { section: numeric[0], showsSign: true };
  if (value < 0) return { section: numeric[1], showsSign: false };
  return { section: value === 0 && numeric.length > 2 ? numeric[2] : numeric[0], showsSign: false };
}

const isDefault = (value: number, index: number): boolean => (index === 0 ? value > 0 : index === 1 && value < 0);
