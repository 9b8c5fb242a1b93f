import type { ProjectSheetName } from '../../../project';
import { mark, type Marked } from '../../locale';

/** What each sheet is for. */
export const WHAT: Readonly<Record<ProjectSheetName, Marked>> = {
  Prices: mark('what you buy, how it is sold and what it costs'),
  Parts: mark('one row for each part: size, material and arm give its weight, moment and cost'),
  Joints: mark('one row for each riveted joint: which rivet, how many, what they weigh and cost'),
  Rivets: mark('your own rivets and their figures; the joints use these first'),
  Hardware: mark('bolts, nuts, hinges: pieces, weight of one and where it is from'),
  Budget: mark('what each component may weigh, and beside it weight, arm, moment, cost and margin'),
};

/** What was put on each, and where to type. */
export const ADDED: Readonly<Record<ProjectSheetName, Marked>> = {
  Prices: mark(
    '{rows, plural, =0 {The list is a table, still empty.} one {A table with # example row.} other {A table with # example rows.}} Type in {cells}, or in the tab Prices.',
  ),
  Parts: mark(
    '{rows, plural, =0 {Formulas wait in every row.} one {# example row; formulas wait in every row.} other {# example rows; formulas wait in every row.}} Type in {cells}.',
  ),
  Joints: mark(
    '{rows, plural, =0 {Formulas wait in every row.} one {# example row; formulas wait in every row.} other {# example rows; formulas wait in every row.}} Type in {cells}.',
  ),
  Rivets: mark(
    '{rows, plural, =0 {A table, still empty.} one {A table with # example row.} other {A table with # example rows.}} Type in {cells}.',
  ),
  Hardware: mark(
    '{rows, plural, =0 {Formulas wait in every row.} one {# example row; formulas wait in every row.} other {# example rows; formulas wait in every row.}} Type in {cells}.',
  ),
  Budget: mark(
    '{rows, plural, =0 {The sums beside the budget come from the parts.} one {# example row; the sums beside it come from the parts.} other {# example rows; the sums beside them come from the parts.}} Type in {cells}.',
  ),
};
