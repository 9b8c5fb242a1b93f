/** One history of undo for the sheet and the pane, in which several edits can be one step. */
import {
  ICommandService,
  IContextService,
  IUndoRedoService,
  IUniverInstanceService,
  sequenceExecute,
  setDependencies,
  type IMutationInfo,
  type IUndoRedoCommandInfos,
  type IUndoRedoItem,
} from '@univerjs/core';
import { WorkbookError } from '../../sheet';
import { UndoStacks } from './internals';
import type { StructureLog } from './structure';

const STEPS_KEPT = 100;

/**
 * The engine's own service batches by appending the undo mutations in the order of the edits, which takes
 * back an insertion before the writes that followed it. Here a later edit is taken back first.
 */
export class UndoSteps extends UndoStacks {
  /** Follows the steps, so that what is taken back counts as not done. */
  log: StructureLog | undefined;
  private step: { unit: string; undo: IMutationInfo[]; redo: IMutationInfo[] } | undefined;

  /** Runs `work`, whose edits become one step; when it throws, what it had done is taken back. */
  async asOneStep(unit: string, label: string, work: () => Promise<void>): Promise<void> {
    if (this.step) throw new Error('A step of undo is open already');
    const step = (this.step = { unit, undo: [], redo: [] });
    const giveUp = this.log?.mark(unit);
    try {
      await work();
    } catch (error) {
      sequenceExecute(step.undo, this.commands);
      giveUp?.();
      throw error;
    } finally {
      this.step = undefined;
    }
    if (step.redo.length > 0)
      this.pushUndoRedo({ unitID: unit, undoMutations: step.undo, redoMutations: step.redo, id: label });
  }

  /** Makes mutations, which are a part of the step that is open, or one of their own. */
  run(unitID: string, { redos, undos }: IUndoRedoCommandInfos): void {
    const { result, error } = sequenceExecute(redos, this.commands);
    if (!result) throw new WorkbookError('host', 'The spreadsheet refused the edit', { cause: error });
    this.pushUndoRedo({ unitID, redoMutations: redos, undoMutations: undos });
  }

  override pushUndoRedo(item: IUndoRedoItem): void {
    if (this.step?.unit === item.unitID) {
      this.step.redo.push(...item.redoMutations);
      this.step.undo.unshift(...item.undoMutations);
      return;
    }
    this.redoStack(item.unitID).length = 0;
    const stack = this.undoStack(item.unitID);
    stack.push(item);
    this.log?.stepDone(item.unitID, item);
    if (stack.length > STEPS_KEPT) stack.shift();
    this.tellStatus();
  }

  /** Takes back the last step of a workbook, wherever the focus is; false where there is none. */
  undo(unit: string): boolean {
    return this.move(this.undoStack(unit), this.redoStack(unit), 'undoMutations', 'stepUndone');
  }

  redo(unit: string): boolean {
    return this.move(this.redoStack(unit), this.undoStack(unit), 'redoMutations', 'stepRedone');
  }

  private move(
    from: IUndoRedoItem[],
    to: IUndoRedoItem[],
    mutations: 'undoMutations' | 'redoMutations',
    tell: 'stepUndone' | 'stepRedone',
  ): boolean {
    const item = from.at(-1);
    if (!item || !sequenceExecute(item[mutations], this.commands).result) return false;
    from.pop();
    to.push(item);
    this.log?.[tell](item.unitID, item);
    this.tellStatus();
    return true;
  }

  override popUndoToRedo(): void {
    const item = this.pitchTopUndoElement();
    super.popUndoToRedo();
    if (item) this.log?.stepUndone(item.unitID, item);
  }

  override popRedoToUndo(): void {
    const item = this.pitchTopRedoElement();
    super.popRedoToUndo();
    if (item) this.log?.stepRedone(item.unitID, item);
  }
}

setDependencies(UndoSteps, [IUniverInstanceService, ICommandService, IContextService]);

/** Puts this history in the place of the engine's own. */
export const historyOverride = [[IUndoRedoService, { useClass: UndoSteps }]] as const;
