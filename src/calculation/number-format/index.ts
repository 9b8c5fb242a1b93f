/**
 * Values as texts in a number format.
 *
 * Not by a package: numfmt 3.2.6 (MIT), which the engine brings, was tried on 38 numbers in 58 formats. It writes 1.005
 * in "0.00" as 1.00, where spreadsheets give 1.01, .99999 in "# ?/16" as "1 16/16", and counts no dates from 1904.
 */
import { memoized } from '../../core/memoized';
import { numberText } from '../values';
import { dateText } from './date-time';
import { digitsText } from './number';
import { isDigit, meets, sectionsOf, type Section } from './sections';

const known = memoized(sectionsOf);

/** A number in a format; undefined where the format has no text for it (a negative date). */
export function formattedNumber(value: number, format: string): string | undefined {
  if (format === '') return '';
  const sections = known(format);
  const { section, showsSign } = chosen(value, numericOf(sections));
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
  const hasDigits = section.pieces.some(isDigit);
  if (!hasDigits && sections.length === 1 && section.pieces.length === 0) return '';
  const text = hasDigits ? digitsText(Math.abs(value), section) : section.pieces.map(({ text: own }) => own).join('');
  const isBare = sign !== '' && hasDigits && sections.length === 1 && showsNothing(text, section);
  return (isBare ? '' : sign) + text;
}

/**
 * True for digits that are all noughts. Before them no minus is put where the format has one section, unless that is a
 * fraction: TEXT(-0.01,"0.0") is 0.0, TEXT(-0.01,"0.0;-0.0") and TEXT(-0.01,"0.0;@") are -0.0.
 * Source: what Excel gives, github.com/borgar/numfmt, issue 1.
 */
const showsNothing = (text: string, section: Section): boolean =>
  !section.pieces.some(({ kind }) => kind === 'slash') && text === digitsText(0, section);

/** The sections for numbers: the last of two or three with an "@" is the one for texts. */
function numericOf(sections: readonly Section[]): readonly Section[] {
  const hasText =
    sections.length > 1 && sections.length < 4 && sections.at(-1)?.pieces.some(({ kind }) => kind === 'at');
  return sections.slice(0, hasText ? -1 : 3);
}

/** A text in a format: the fourth section's, or one with "@"; else the text. */
export function formattedText(text: string, format: string): string {
  const sections = known(format);
  const section = sections[3] ?? sections.find(({ pieces }) => pieces.some(({ kind }) => kind === 'at'));
  if (!section) return text;
  return section.pieces.map((piece) => (piece.kind === 'at' ? text : piece.text)).join('');
}

/** Sections are for positive numbers, negative ones (which lose their sign) and 0, unless conditions say otherwise. */
function chosen(value: number, numeric: readonly Section[]): { section: Section | undefined; showsSign: boolean } {
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
