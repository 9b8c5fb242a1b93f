/** The calculator as the engine's workbooks reach it: in this thread, or in one of its own (src/hosts/bench). */
import { CalculationService, type Answer, type Request } from '../../calculation/service';

export interface CalculatorPort {
  post(request: Request): void;
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
    return { post: (request) => service.take(request), close: () => undefined };
  },
};
