/** Starts the calculator in a worker, so that the page answers while it calculates. */
import { askWorker, NoWorker, WorkerDied } from '../../pane/shared/worker-asks';
import { XlsxError } from '../../xlsx';
import type { CalculatorHost } from '../univer';
import type { CalculationAnswers } from './calculation-worker';

export const calculatorInWorker: CalculatorHost = {
  isHere: false,
  start(tell, died) {
    const asks = askWorker<CalculationAnswers>(() => new Worker(new URL('./calculation-worker.ts', import.meta.url)));
    const failed = (error: unknown): void => {
      if (error instanceof NoWorker || error instanceof WorkerDied) died(wordsOf(error));
    };
    /** An error loses its class on its way. */
    const asItWas = (error: unknown): never => {
      failed(error);
      if (error instanceof Error && error.name === 'XlsxError') throw new XlsxError('corrupt', error.message);
      throw error instanceof NoWorker || error instanceof WorkerDied ? new Error(wordsOf(error)) : error;
    };
    return {
      post: (request) => void asks.ask('take', request, tell).catch(failed),
      readFile: (book, bytes, hear) => asks.ask('readFile', { book, bytes }, hear).catch(asItWas),
      withoutCells: (bytes) => asks.ask('withoutCells', bytes).catch(asItWas),
      close: () => asks.end(),
    };
  },
};

const wordsOf = (error: unknown): string =>
  error instanceof NoWorker
    ? 'The calculator could not be loaded. Check the connection, then load the page again.'
    : 'The calculator ended unexpectedly, perhaps because memory ran out. Edit a cell to have it start again.';
