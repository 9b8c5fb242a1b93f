/** The linear solver in a browser: its WebAssembly file is an asset beside the scripts. */
import { loadHighsSolver } from '../../../core/stock/highs-solver';
import type { LinearSolver } from '../../../core/stock';

export function browserSolver(): Promise<LinearSolver> {
  const { href } = new URL('highs/runtime', import.meta.url);
  return loadHighsSolver({ locateFile: () => href });
}
