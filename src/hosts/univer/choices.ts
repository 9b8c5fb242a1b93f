/** Lists of choices of a workbook's cells: kept with it and undone with it, though the grid does not offer them. */
import { CommandType, ICommandService, type IMutationInfo, type Injector } from '@univerjs/core';
import type { ChoiceValidation } from '../../workbook';

const SET_CHOICES = 'tarebook.mutation.set-choices';

interface Params {
  readonly unitId: string;
  readonly choices: readonly ChoiceValidation[];
}

export class ChoiceLists {
  private readonly byWorkbook = new Map<string, readonly ChoiceValidation[]>();

  constructor(injector: Injector) {
    injector.get(ICommandService).registerCommand({
      type: CommandType.MUTATION,
      id: SET_CHOICES,
      handler: (_accessor, params) => {
        const { unitId, choices } = params as Params;
        this.byWorkbook.set(unitId, choices);
        return true;
      },
    });
  }

  of(unitId: string): readonly ChoiceValidation[] {
    return this.byWorkbook.get(unitId) ?? [];
  }

  put(unitId: string, choices: readonly ChoiceValidation[]): void {
    this.byWorkbook.set(unitId, choices);
  }

  /** The mutations that add a list, and that take it back; a list for the same range takes the place of the former. */
  adding(unitId: string, added: ChoiceValidation): { redo: IMutationInfo; undo: IMutationInfo } {
    const before = this.of(unitId);
    const key = JSON.stringify(added.range);
    const after = [...before.filter((one) => JSON.stringify(one.range) !== key), added];
    return { redo: setting(unitId, after), undo: setting(unitId, before) };
  }
}

const setting = (unitId: string, choices: readonly ChoiceValidation[]): IMutationInfo => ({ id: SET_CHOICES, params: { unitId, choices } satisfies Params });
