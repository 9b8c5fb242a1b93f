/** A text of separated values (RFC 4180, and as spreadsheets write it elsewhere): the one way in, whoever asks. Nothing in it is ever a formula. */
import Papa from 'papaparse';

/** What parts the fields of a text that is written here. */
const OWN = ',';
const DELIMITERS = [OWN, ';', '\t', '|'];
/** Of two that do as well, a later one: fields that a semicolon parts have commas in them, as 1,5 has. */
const BY_RANK = ['|', OWN, '\t', ';'];
/** As many records tell what parts the fields. */
const LOOKED_AT = 40;

/** How well records read that a delimiter parts, the most telling figure first. */
type CsvWorth = (records: readonly (readonly string[])[], delimiter: string) => readonly number[];

interface CsvRecords {
  /** Blank ones too, so that their numbers are the file's. */
  readonly records: readonly (readonly string[])[];
  readonly delimiter: string;
  /** Number of the record, the first being 1, in which a quotation mark is not closed. */
  readonly unclosed?: number;
}

/** Records that have the same number of fields, more than one. */
const evenRecords: CsvWorth = (records, delimiter) => {
  const counts = new Map<number, number>();
  for (const { length } of records) if (length > 1) counts.set(length, (counts.get(length) ?? 0) + 1);
  return [Math.max(0, ...counts.values()), BY_RANK.indexOf(delimiter)];
};

function compare(left: readonly number[], right: readonly number[]): number {
  const at = left.findIndex((figure, index) => figure !== right[index]);
  return at < 0 ? 0 : left[at]! - right[at]!;
}

/**
 * The records of a text, its fields parted by whichever of comma, semicolon, tab and bar makes most of it; of two that
 * do as well, by the first.
 * @param worth what is made of it: records of one length where the text's own labels are not known
 */
export function csvRecords(text: string, worth: CsvWorth = evenRecords): CsvRecords {
  const content = text.replace(/^\uFEFF/, '');
  const scored = DELIMITERS.map((delimiter) => {
    const { data } = Papa.parse<string[]>(content, { delimiter, preview: LOOKED_AT });
    return { delimiter, worth: worth(data, delimiter) };
  });
  const { delimiter } = scored.reduce((best, one) => (compare(one.worth, best.worth) > 0 ? one : best));
  const { data, errors } = Papa.parse<string[]>(content, { delimiter });
  const broken = errors.find(({ type }) => type === 'Quotes');
  return { records: data, delimiter, ...(broken ? { unclosed: (broken.row ?? 0) + 1 } : {}) };
}

/** Says which record has the quotation mark, and what to do. */
export const unclosedSentence = (record: number): string =>
  `Row ${record} has a quotation mark that is not closed. Close it and try again.`;

/** Text that a spreadsheet would take for a formula when it opens the file. */
const LIKE_A_FORMULA = /^'*[=+\-@\t\r]/;

/** A number as it is written, and not as a formula may begin. */
const PLAIN_NUMBER = /^-?\d+(?:\.\d+)?$/;

/** An apostrophe before text that looks like a formula; plain numbers stay as they are. */
export const guard = (text: string): string =>
  LIKE_A_FORMULA.test(text) && !PLAIN_NUMBER.test(text) ? `'${text}` : text;

/** Takes the apostrophe off again. */
export const unguard = (text: string): string =>
  text.startsWith("'") && LIKE_A_FORMULA.test(text) ? text.slice(1) : text;

/** The records of a text that `csvText` made. */
export const ownRecords = (text: string): readonly (readonly string[])[] =>
  Papa.parse<string[]>(text, { delimiter: OWN }).data;

/** Records as a text, with the line ends of RFC 4180, or of a terminal's tools. */
export const csvText = (records: readonly (readonly unknown[])[], newline: '\r\n' | '\n' = '\r\n'): string =>
  `${Papa.unparse(records as unknown[][], { newline })}${newline}`;
