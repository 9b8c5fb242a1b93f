/** The calculator in a thread of its own. */
import { CalculationService, type Answer, type Request } from '../../calculation/service';

interface WorkerScope {
  onmessage: ((event: { readonly data: Request }) => void) | null;
  postMessage(answer: Answer): void;
}

const scope = globalThis as unknown as WorkerScope;
const service = new CalculationService((answer) => scope.postMessage(answer));
scope.onmessage = ({ data }) => service.take(data);
