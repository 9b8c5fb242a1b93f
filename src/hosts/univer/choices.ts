/** Drop-down lists of cells, in the engine's own model: the grid offers them, and they move with their cells. */
import {
  DataValidationErrorStyle,
  DataValidationRenderMode,
  DataValidationType,
  generateRandomId,
  type IMutationInfo,
  type Injector,
  type ISheetDataValidationRule,
  type IUndoRedoCommandInfos,
  type Worksheet,
} from '@univerjs/core';
import {
  AddDataValidationMutation,
  DataValidationModel,
  RemoveDataValidationMutation,
} from '@univerjs/data-validation';
import type { ChoiceValidation, RangeAddress, SheetModel } from '../../sheet';
import { targetOf, toAddress, toRange } from './places';

/** The lists of sheets as a snapshot holds them, by the sheets' ids. */
export const choiceRules = (sheets: readonly (readonly [id: string, sheet: SheetModel])[]): string =>
  JSON.stringify(
    Object.fromEntries(
      sheets.flatMap(([id, { validations }]) =>
        validations ? [[id, validations.map((one, index) => rule(one, `${id}-list-${index}`))]] : [],
      ),
    ),
  );

/** The lists of a sheet, one for each of their ranges. */
export function choicesOf(injector: Injector, sheet: Worksheet): ChoiceValidation[] {
  return rulesOn(injector, sheet).flatMap(({ type, formula1, formula2, ranges, showErrorMessage }) => {
    const choices = type === DataValidationType.LIST && formula1 ? choicesIn(formula1) : [];
    const kind: Pick<ChoiceValidation, 'from' | 'open'> = {
      ...(formula2 ? { from: JSON.parse(formula2) as RangeAddress } : {}),
      ...(showErrorMessage ? {} : { open: true }),
    };
    return choices.length
      ? ranges.map((range): ChoiceValidation => ({ range: toAddress(sheet.getName(), range), choices, ...kind }))
      : [];
  });
}

/** Rules of what a sheet's cells take: drop-down lists, and those that a file has beside them. */
export const rulesOn = (injector: Injector, sheet: Worksheet): ISheetDataValidationRule[] =>
  injector.get(DataValidationModel).getRules(sheet.getUnitId(), sheet.getSheetId());

/** The mutations that add a list, and that take it back; a list for the same cells takes the place of the former. */
export function addingChoices(injector: Injector, sheet: Worksheet, added: ChoiceValidation): IUndoRedoCommandInfos {
  const where = targetOf(sheet);
  const wanted = JSON.stringify(added.range);
  const former = rulesOn(injector, sheet).filter(
    ({ ranges }) => ranges.length === 1 && JSON.stringify(toAddress(added.range.sheet, ranges[0]!)) === wanted,
  );
  const fresh = rule(added, generateRandomId());
  const add = (one: ISheetDataValidationRule): IMutationInfo => ({
    id: AddDataValidationMutation.id,
    params: { ...where, rule: one },
  });
  const remove = ({ uid }: ISheetDataValidationRule): IMutationInfo => ({
    id: RemoveDataValidationMutation.id,
    params: { ...where, ruleId: uid },
  });
  return { redos: [...former.map(remove), add(fresh)], undos: [remove(fresh), ...former.map(add)] };
}

/**
 * Texts that are not on the list are refused unless it is open, as a spreadsheet does that reads the file. Where the
 * choices come from is kept for that file: the grid offers those that stood there when the list was made or read.
 */
const rule = ({ range, choices, from, open }: ChoiceValidation, uid: string): ISheetDataValidationRule => ({
  uid,
  type: DataValidationType.LIST,
  formula1: JSON.stringify(choices),
  ...(from ? { formula2: JSON.stringify(from) } : {}),
  ranges: [toRange(range)],
  allowBlank: true,
  showDropDown: true,
  showErrorMessage: !open,
  error: `This cell takes ${oneOf(choices)}. Alt+Down shows the list.`,
  errorStyle: open ? DataValidationErrorStyle.INFO : DataValidationErrorStyle.STOP,
  renderMode: DataValidationRenderMode.ARROW,
});

/** "estimated, laid out or weighed" */
const oneOf = (choices: readonly string[]): string =>
  choices.length < 2 ? choices.join('') : `${choices.slice(0, -1).join(', ')} or ${choices.at(-1)!}`;

/** A list in a form of the engine's menus has its choices between commas. */
function choicesIn(source: string): string[] {
  if (source.startsWith('=')) return [];
  return source.startsWith('[')
    ? (JSON.parse(source) as string[])
    : source.split(',').filter((choice) => choice !== '');
}
