/** The calculator in a thread of its own, which also reads files. */
import { CalculationService, type Answer, type Request, type UnknownInBook } from '../../calculation/service';
import { answerAsks } from '../../pane/shared/worker-asks';
import { withoutCells } from '../../xlsx/extras/without-cells';
import { readInPieces, type FilePiece } from '../univer/calculator-port';

let tellPage: (answer: Answer) => void = () => undefined;
const service = new CalculationService((answer) => tellPage(answer));

const answers = {
  take(request: Request, tell: (answer: Answer) => void): void {
    tellPage = tell;
    service.take(request);
  },
  readFile(
    { book, bytes }: { readonly book: string; readonly bytes: Uint8Array },
    hear: (piece: FilePiece) => void,
  ): UnknownInBook[] {
    return service.adopt(book, readInPieces(bytes, hear));
  },
  withoutCells: (bytes: Uint8Array): Uint8Array => withoutCells(bytes),
};

export type CalculationAnswers = typeof answers;

answerAsks(answers);
