/** The calculator as the engine's workbooks reach it: in this thread, or in one of its own (src/hosts/bench). */
import { CalculationService, type Answer, type Request, type UnknownInBook } from '../../calculation/service';
import { withoutCells } from '../../xlsx/extras/without-cells';
import { readInPieces, type FilePiece } from './file-reading';

export interface CalculatorPort {
  post(request: Request): void;
  /**
   * Reads a file and begins it under a name; `hear` is handed its pieces. Gives the formulas that cannot be calculated.
   * Rejects with XlsxError.
   */
  readFile(book: string, bytes: Uint8Array, hear: (piece: FilePiece) => void): Promise<readonly UnknownInBook[]>;
  /** The file without its cells. Rejects with XlsxError. */
  withoutCells(bytes: Uint8Array): Promise<Uint8Array>;
  close(): void;
}

export interface CalculatorHost {
  /** True where every request is answered before `post` comes back. */
  readonly isHere: boolean;
  /** Starts a calculator that answers through `tell`; `died` is called when it will answer no more. */
  start(tell: (answer: Answer) => void, died: (why: string) => void): CalculatorPort;
}

/** In this thread. */
export const calculatorHere: CalculatorHost = {
  isHere: true,
  start(tell) {
    const service = new CalculationService(tell);
    return {
      post: (request) => service.take(request),
      readFile: async (book, bytes, hear) => service.adopt(book, readInPieces(bytes, hear)),
      withoutCells: async (bytes) => withoutCells(bytes),
      close: () => undefined,
    };
  },
};
