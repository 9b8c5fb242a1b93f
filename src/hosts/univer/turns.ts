/** Long work in pieces, with the page's turn between them. */

/** Does a job up to each `yield` and on to its end. What is given back stops it where it is. */
export type Turns = (job: Generator<void>, failed: (error: unknown) => void) => () => void;

/** All of it in one go, where nobody looks at a page. */
export const inOneGo: Turns = (job, failed) => {
  try {
    for (let step = job.next(); !step.done; step = job.next());
  } catch (error) {
    failed(error);
  }
  return () => undefined;
};

/** Milliseconds that a page's turn may take: a frame is drawn between two of them. */
const TURN = 12;

/** In turns of a few milliseconds: what is pressed and drawn comes between. */
export const inTurns: Turns = (job, failed) => {
  // A timer would wait for four milliseconds each time, and for a second in a tab that is not in view.
  const channel = new MessageChannel();
  channel.port1.onmessage = () => {
    const end = performance.now() + TURN;
    try {
      while (performance.now() < end) if (job.next().done) return channel.port1.close();
      channel.port2.postMessage(undefined);
    } catch (error) {
      channel.port1.close();
      failed(error);
    }
  };
  channel.port2.postMessage(undefined);
  return () => {
    channel.port1.close();
    job.return(undefined);
  };
};

/** Resolves at the end of a job. */
export function done(turns: Turns, job: Generator<void>): Promise<void> {
  return new Promise((resolve, reject) => {
    turns(
      (function* whole() {
        yield* job;
        resolve();
      })(),
      reject,
    );
  });
}
