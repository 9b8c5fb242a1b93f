/** Starts the calculator in a worker, so that the page answers while it calculates. */
import type { Answer } from '../../calculation/service';
import type { CalculatorHost } from '../univer';

export const calculatorInWorker: CalculatorHost = {
  isHere: false,
  start(tell, died) {
    const worker = new Worker(new URL('./calculation-worker.ts', import.meta.url));
    worker.onmessage = ({ data }: { readonly data: Answer }) => tell(data);
    worker.onerror = (event) => {
      event.preventDefault();
      died(event.message || 'The calculator could not be loaded. Check the connection, then load the page again.');
    };
    worker.onmessageerror = () => died('An answer of the calculator could not be read.');
    return { post: (request) => worker.postMessage(request), close: () => worker.terminate() };
  },
};
