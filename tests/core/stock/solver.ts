/** One solver for a test file, and a clock of the processor's own time, which a busy machine does not change. */
import { loadHighsSolver } from '../../../src/core/stock/highs-solver';
import type { LinearSolver } from '../../../src/core/stock';

let loaded: Promise<LinearSolver> | undefined;
export const solver = (): Promise<LinearSolver> => (loaded ??= loadHighsSolver());

export const processorTime = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};
