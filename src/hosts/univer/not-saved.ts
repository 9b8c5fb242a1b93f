/** What the engine can do to a sheet and a file is not given: such commands are not offered, and end as ones that did nothing. */
import {
  AddRangeProtectionCommand,
  AddWorksheetProtectionCommand,
  SetBorderBasicCommand,
  SetBorderCommand,
  SetFontFamilyCommand,
  SetGridlinesColorCommand,
  SetStrikeThroughCommand,
  SetTextRotationCommand,
  SetUnderlineCommand,
  SetVerticalTextAlignCommand,
  SetWorksheetRangeThemeStyleCommand,
  SetWorksheetRightToLeftCommand,
  ToggleGridlinesCommand,
} from '@univerjs/sheets';

/** By command: what it would change. */
export const NOT_SAVED: ReadonlyMap<string, string> = new Map([
  [SetUnderlineCommand.id, 'Underlining'],
  [SetStrikeThroughCommand.id, 'Striking through'],
  [SetFontFamilyCommand.id, 'Another font'],
  [SetVerticalTextAlignCommand.id, 'Vertical alignment'],
  [SetTextRotationCommand.id, 'Turned text'],
  [SetBorderBasicCommand.id, 'A border'],
  [SetBorderCommand.id, 'A border'],
  [ToggleGridlinesCommand.id, 'Hiding gridlines'],
  [SetGridlinesColorCommand.id, 'The colour of gridlines'],
  [SetWorksheetRightToLeftCommand.id, 'Writing from right to left'],
  [SetWorksheetRangeThemeStyleCommand.id, 'A theme of cells'],
  [AddRangeProtectionCommand.id, 'Protection'],
  [AddWorksheetProtectionCommand.id, 'Protection'],
]);
