/** A spreadsheet keeps 15 digits of a number. */
const DIGITS = 15;

/** A number as it stands in a formula, whatever the locale: "0.09375". */
export const numberLiteral = (value: number): string => String(Number(value.toPrecision(DIGITS))).toUpperCase();

/** A text as it stands in a formula: "6061", quotes in it doubled. */
export const textLiteral = (text: string): string => `"${text.replaceAll('"', '""')}"`;

/** What a text literal says. */
export const textOf = (literal: string): string => literal.slice(1, -1).replaceAll('""', '"');
