/** The edits that add the sheet Rivet options: what is compared, minutes, tools, the makers' shear. */
import { DEFAULT_TERMS } from '../../core/rivet-choice';
import type { UnitSystem } from '../../core/quantity';
import type { Edit } from '../../sheet';
import { USUAL_OPTIONS } from '../rivet-options';
import {
  COUNT_RULES,
  EXCEPTION_LIST,
  OPTION_LIST,
  RIVET_FACTS,
  RIVET_OPTIONS_SHEET,
  SHEAR_LIST,
  TOOL_LIST,
} from '../rivet-options-forms';
import { SheetPlan } from './plan';

const FACTS_FROM = 5;
const HEADER = 14;
const LAST = HEADER + 31;

/** Columns in which the lists begin, with one free column between them. */
const LIST_COLUMNS = { options: 0, exceptions: 3, tools: 7, shear: 14 } as const;

/** @param add false where the sheet is there already and empty */
export function newRivetOptionsSheet(add = true, units: UnitSystem = 'in-lb'): Edit[] {
  const { minutes } = DEFAULT_TERMS;
  const practice = 'common practice, no source: your own log is better';
  return new SheetPlan(RIVET_OPTIONS_SHEET)
    .heading('Rivet options', [
      'What the tab Rivets compares for the joints of the sheet Joints. Shaded cells are typed.',
      'Pull-type rivets are not approved for the structure of certificated aircraft (AC 43.13-1B ¶4-57f(9)). Structural joints come from the designer’s drawings.',
    ])
    .row(FACTS_FROM - 1, [RIVET_FACTS.labourRate, 0, 'one person; 0 for your own time'])
    .row(FACTS_FROM, [RIVET_FACTS.drillSolid, minutes.solid.drill, practice])
    .row(FACTS_FROM + 1, [RIVET_FACTS.setSolid, minutes.solid.set, practice])
    .row(FACTS_FROM + 2, [RIVET_FACTS.drillBlind, minutes.blind.drill, practice])
    .row(FACTS_FROM + 3, [RIVET_FACTS.setBlind, minutes.blind.set, practice])
    .row(FACTS_FROM + 4, [RIVET_FACTS.secondPerson, 'yes', 'yes: the minutes of setting a solid rivet count twice'])
    .row(FACTS_FROM + 5, [
      RIVET_FACTS.countRule,
      COUNT_RULES[0],
      'or match shear: rivets are added where both strengths are known',
    ])
    .look(`B${FACTS_FROM}:B${FACTS_FROM + 6}`, 'text')
    .choices(`B${FACTS_FROM + 5}`, ['yes', 'no'])
    .choices(`B${FACTS_FROM + 6}`, COUNT_RULES)
    .list(OPTION_LIST, LIST_COLUMNS.options, HEADER, LAST, units)
    .list(EXCEPTION_LIST, LIST_COLUMNS.exceptions, HEADER, LAST, units)
    .list(TOOL_LIST, LIST_COLUMNS.tools, HEADER, LAST, units)
    .list(SHEAR_LIST, LIST_COLUMNS.shear, HEADER, LAST, units)
    .rows(HEADER, USUAL_OPTIONS, LIST_COLUMNS.options)
    .widths([25, 16, 3, 18, 30, 16, 3, 22, 8, 9, 11, 12, 8, 3, 14, 11, 30])
    .edits(add);
}
