/** Makes a plan that is asked for as plain data; the same in a worker and beside the pane. */
import {
  planBars,
  planSheets,
  type CuttingPlan,
  type LinearSolver,
  type PlanOptions,
  type Progress,
  type SheetPart,
  type SheetStock,
} from '../../../core/stock';
import type { PlanRequest } from './cutting-needs';

export interface PlanControl {
  readonly signal: { readonly aborted: boolean };
  progress(progress: Progress): void;
}

export function runPlan(
  { sheets, parts, stock, ...limits }: PlanRequest,
  solver: LinearSolver,
  { signal, progress }: PlanControl,
): Promise<CuttingPlan> {
  // Between two steps the message that cancels is let in.
  const options: PlanOptions = {
    solver,
    ...limits,
    signal,
    progress,
    pause: () => new Promise((resolve) => setTimeout(resolve)),
  };
  return sheets
    ? planSheets(
        parts as readonly SheetPart[],
        stock as readonly SheetStock[],
        { ...options, strips: 'either' } as PlanOptions,
      )
    : planBars(parts, stock, options);
}
