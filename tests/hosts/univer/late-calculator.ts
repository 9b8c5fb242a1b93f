/** A calculator that answers late and through copies, as one in a thread of its own does. */
import { CalculationService, type Answer, type Request } from '../../../src/calculation/service';
import type { CalculatorHost } from '../../../src/hosts/univer';
import { readInPieces } from '../../../src/hosts/univer/calculator-port';
import { withoutCells } from '../../../src/xlsx/extras/without-cells';

/** @param delay milliseconds until a request is taken, or an answer heard; asked for each of them */
export const calculatorLate = (delay: () => number): CalculatorHost => ({
  isHere: false,
  start(tell) {
    let isOpen = true;
    const answers = inOrder((answer: Answer) => isOpen && tell(answer), delay);
    const service = new CalculationService((answer) => answers(structuredClone(answer)));
    const requests = inOrder((request: Request) => isOpen && service.take(request), delay);
    return {
      post: (request) => requests(structuredClone(request)),
      readFile: (book, bytes, hear) =>
        new Promise((resolve, reject) => {
          const pieces = inOrder((take: () => void) => take(), delay);
          try {
            const model = readInPieces(bytes, (piece) => {
              const copy = structuredClone(piece);
              pieces(() => hear(copy));
            });
            const unknown = structuredClone(service.adopt(book, model));
            pieces(() => resolve(unknown));
          } catch (error) {
            pieces(() => reject(error instanceof Error ? error : new Error(String(error))));
          }
        }),
      withoutCells: async (bytes) => withoutCells(bytes),
      close: () => {
        isOpen = false;
      },
    };
  },
});

/** Hands on one after the other, each after a while. */
function inOrder<T>(take: (one: T) => void, delay: () => number): (one: T) => void {
  let last = Promise.resolve();
  return (one) => {
    last = last.then(() => new Promise((resolve) => setTimeout(resolve, delay()))).then(() => take(one));
  };
}
