/**
 * When the engine calculates. Its own controller waits until 100 ms have gone by without an edit, which is
 * most of the time between an edit and its roll-up; here calculation starts as soon as the edit's own work is
 * done. And a calculation that is under way when cells move is stopped at once: its results are meant for the
 * places where the cells were.
 *
 * This reaches into the engine's controller, whose version is pinned: where its members are not as they were,
 * the engine is left to do as it does.
 */
import { ICommandService, type ICommandInfo, type Univer } from '@univerjs/core';
import {
  FormulaExecutedStateType,
  SetFormulaCalculationNotificationMutation,
  SetFormulaCalculationStartMutation,
  SetFormulaCalculationStopMutation,
  type ISetFormulaCalculationNotificationMutation,
} from '@univerjs/engine-formula';
import { TriggerCalculationController } from '@univerjs/sheets-formula';
import { CELLS_MOVE } from './mutations';

interface Trigger {
  _waitingCommandQueue: ICommandInfo[];
  _setTimeoutKey: ReturnType<typeof setTimeout>;
  _executingDirtyData: object;
  _executionInProgressParams: object | null;
  _restartCalculation: boolean;
  _generateDirty(commands: readonly ICommandInfo[]): object;
  _mergeDirty(one: object, other: object): object;
}

/** Ends with the engine. Gives whether everything that was edited is calculated. */
export function calculatePromptly(univer: Univer): () => boolean {
  const injector = univer.__getInjector();
  // Making the controller also has it listen before this does.
  const trigger = injector.get(TriggerCalculationController) as unknown as Trigger;
  if (
    !Array.isArray(trigger._waitingCommandQueue) ||
    typeof trigger._generateDirty !== 'function' ||
    typeof trigger._mergeDirty !== 'function'
  )
    return () => trigger._executionInProgressParams === null;
  const commands = injector.get(ICommandService);
  const run = new Run();
  let timer: ReturnType<typeof setTimeout> | undefined;
  /** What is to be calculated once the calculation under way has stopped. */
  let afterStop: object | undefined;

  const start = (): void =>
    void commands.executeCommand(
      SetFormulaCalculationStartMutation.id,
      { ...trigger._executingDirtyData },
      { onlyLocal: true },
    );
  const restart = (dirty: object): void => {
    trigger._executingDirtyData = afterStop = trigger._mergeDirty(trigger._executingDirtyData, dirty);
    trigger._restartCalculation = true;
    void commands.executeCommand(SetFormulaCalculationStopMutation.id, {});
  };
  const takeQueue = (): void => {
    timer = undefined;
    if (trigger._waitingCommandQueue.length === 0) return;
    clearTimeout(trigger._setTimeoutKey);
    const dirty = trigger._generateDirty(trigger._waitingCommandQueue);
    trigger._waitingCommandQueue = [];
    if (run.isUnderWay) return restart(dirty);
    trigger._executingDirtyData = trigger._mergeDirty(trigger._executingDirtyData, dirty);
    start();
  };

  commands.onCommandExecuted((command) => {
    if (CELLS_MOVE.has(command.id) && run.isUnderWay)
      restart({ ...trigger._generateDirty([]), forceCalculation: true });
    if (trigger._waitingCommandQueue.length > 0) timer ??= setTimeout(takeQueue);
    const end = run.note(command);
    if (end === undefined || !afterStop) return;
    // The controller starts again after a stop; after an end that came before the stop it forgets what was wanted.
    if (end !== FormulaExecutedStateType.STOP_EXECUTION) {
      trigger._executingDirtyData = afterStop;
      trigger._restartCalculation = false;
      start();
    }
    afterStop = undefined;
  });
  univer.onDispose(() => clearTimeout(timer));
  return () => timer === undefined && !run.isUnderWay && afterStop === undefined;
}

/** Whether a calculation is under way: from what the engine says of it, which tells of one that was stopped twice. */
class Run {
  isUnderWay = false;
  private toldOfStop = false;
  private startedAgain = false;

  /** How a calculation ended, if the command says that one did. */
  note({ id, params }: ICommandInfo): FormulaExecutedStateType | undefined {
    if (id === SetFormulaCalculationStartMutation.id) this.isUnderWay = this.startedAgain = true;
    if (id === SetFormulaCalculationStopMutation.id) this.startedAgain = false;
    const state =
      id === SetFormulaCalculationNotificationMutation.id
        ? (params as ISetFormulaCalculationNotificationMutation).functionsExecutedState
        : undefined;
    if (state === undefined) return undefined;
    if (state === FormulaExecutedStateType.STOP_EXECUTION) {
      this.toldOfStop = !this.toldOfStop;
      if (!this.toldOfStop) return undefined;
      // The controller, which hears of it first, may have started again.
      this.isUnderWay = this.startedAgain;
    } else {
      this.isUnderWay = false;
    }
    return state;
  }
}
