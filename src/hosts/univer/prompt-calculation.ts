/**
 * Calculation at once after an edit. The engine waits until 100 ms have gone by without one, which is most
 * of the time between an edit and its roll-up; this does what its timer would do as soon as the edit's own
 * work is done. It reaches into the engine's controller, whose version is pinned: where the members are not
 * as they were, the engine's own timer is left to do it.
 */
import { ICommandService, type ICommandInfo, type Univer } from '@univerjs/core';
import { SetFormulaCalculationStartMutation, SetFormulaCalculationStopMutation } from '@univerjs/engine-formula';
import { TriggerCalculationController } from '@univerjs/sheets-formula';

interface Trigger {
  _waitingCommandQueue: ICommandInfo[];
  _setTimeoutKey: ReturnType<typeof setTimeout>;
  _executingDirtyData: object;
  _executionInProgressParams: object | null;
  _restartCalculation: boolean;
  _generateDirty(commands: readonly ICommandInfo[]): object;
  _mergeDirty(one: object, other: object): object;
}

/** Ends with the engine. */
export function calculatePromptly(univer: Univer): void {
  const injector = univer.__getInjector();
  // Making the controller also has it listen before this does.
  const trigger = injector.get(TriggerCalculationController) as unknown as Trigger;
  if (!Array.isArray(trigger._waitingCommandQueue) || typeof trigger._generateDirty !== 'function' || typeof trigger._mergeDirty !== 'function') return;
  const commands = injector.get(ICommandService);
  let timer: ReturnType<typeof setTimeout> | undefined;
  const start = (): void => {
    timer = undefined;
    if (trigger._waitingCommandQueue.length === 0) return;
    clearTimeout(trigger._setTimeoutKey);
    trigger._executingDirtyData = trigger._mergeDirty(trigger._executingDirtyData, trigger._generateDirty(trigger._waitingCommandQueue));
    trigger._waitingCommandQueue = [];
    if (trigger._executionInProgressParams === null) {
      void commands.executeCommand(SetFormulaCalculationStartMutation.id, { ...trigger._executingDirtyData }, { onlyLocal: true });
    } else {
      trigger._restartCalculation = true;
      void commands.executeCommand(SetFormulaCalculationStopMutation.id, {});
    }
  };
  commands.onCommandExecuted(() => {
    if (trigger._waitingCommandQueue.length > 0) timer ??= setTimeout(start);
  });
  univer.onDispose(() => clearTimeout(timer));
}
