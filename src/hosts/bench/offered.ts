/** Menus of the embedded spreadsheet without what a saved file would not have. */
import { NOT_SAVED } from '../univer';

/** Entries of menus and toolbars, by their ids in sheets-ui, that lead to such commands under ids of their own. */
const ENTRIES = [
  'sheet.command.set-range-underline',
  'sheet.command.set-range-stroke',
  'sheet.command.set-range-font-family',
  'sheet.command.set-range-subscript',
  'sheet.command.set-range-superscript',
  'sheet.contextMenu.permission',
  'sheet.command.add-range-protection-from-toolbar',
  'sheet.command.add-range-protection-from-sheet-bar',
  'sheet.command.add-range-protection-from-context-menu',
  'sheet.command.change-sheet-protection-from-sheet-bar',
  'sheet.command.view-sheet-permission-from-sheet-bar',
  'sheet.command.view-sheet-permission-from-context-menu',
];

/** For the configuration of the engine's sheets. */
export const OFFERED = Object.fromEntries([...NOT_SAVED.keys(), ...ENTRIES].map((id) => [id, { hidden: true }]));
