/**
 * A worker that is asked: the page names what it wants, and has a promise of the answer. Everything is cloned on its
 * way (structured clone): a class arrives as a plain object. A worker that dies fails all that was asked of it.
 */

/** What a worker answers, by name; `tell` sends word to whoever asked, as often as wanted, before the answer. */
export type Answers = Readonly<Record<string, (given: never, tell: never) => unknown>>;

type Given<F> = F extends (given: infer G, ...rest: never[]) => unknown ? G : never;
type Word<F> = F extends (given: never, tell: (word: infer W) => void) => unknown ? W : never;
type Answer<F> = F extends (...args: never[]) => infer R ? Awaited<R> : never;

export interface Asks<A extends Answers> {
  ask<K extends keyof A & string>(
    what: K,
    given: Given<A[K]>,
    hear?: (word: Word<A[K]>) => void,
  ): Promise<Answer<A[K]>>;
  /** Ends the worker; what it has not answered fails with the reason. */
  end(reason?: Error): void;
}

/** There is no worker to be had: the host forbids them to guests, or the worker's file was not found. */
export class NoWorker extends Error {}

/** The worker has died. */
export class WorkerDied extends Error {}

/** The worker was ended by whoever started it. @internal */
export class WorkerEnded extends Error {}

type ToWorker = { readonly id: number; readonly what: string; readonly given: unknown };

type FromWorker =
  /** It listens. The lock is its own for as long as it lives; undefined where a browser has no locks. */
  | { readonly lock: string | undefined }
  | { readonly id: number; readonly word: unknown }
  | { readonly id: number; readonly answer: unknown }
  | { readonly id: number; readonly failed: { readonly name: string; readonly message: string } };

/** Longer than this, ms, no worker takes to load. One that the system ends meanwhile says nothing. */
const LOADS_WITHIN = 60_000;

interface Pending {
  resolve(answer: unknown): void;
  reject(error: Error): void;
  hear(word: unknown): void;
}

/**
 * Starts a worker and asks it.
 * @param make `() => new Worker(new URL('./some-worker.ts', import.meta.url))`, written out where it is called: the
 * bundler looks for these words
 */
export function askWorker<A extends Answers>(make: () => Worker): Asks<A> {
  const pending = new Map<number, Pending>();
  let asked = 0;
  let heard = false;
  let over: Error | undefined;
  let worker: Worker | undefined;
  const end = (reason: Error): void => {
    over ??= reason;
    clearTimeout(loading);
    worker?.terminate();
    for (const { reject } of pending.values()) reject(over);
    pending.clear();
  };
  const loading = setTimeout(() => end(new NoWorker()), LOADS_WITHIN);
  const listen = (message: FromWorker): void => {
    heard = true;
    clearTimeout(loading);
    if ('lock' in message) {
      // It is given to the page when the worker is gone, even where that says nothing.
      if (message.lock !== undefined) navigator.locks.request(message.lock, () => end(new WorkerDied())).catch(ignore);
      return;
    }
    const { id } = message;
    const one = pending.get(id);
    if ('word' in message) return one?.hear(message.word);
    pending.delete(id);
    if ('answer' in message) one?.resolve(message.answer);
    else one?.reject(Object.assign(new Error(message.failed.message), { name: message.failed.name }));
  };
  try {
    worker = make();
    worker.onmessage = ({ data }: { readonly data: FromWorker }) => listen(data);
    worker.onerror = ({ message }) => end(heard ? new WorkerDied(message) : new NoWorker());
  } catch {
    end(new NoWorker());
  }
  return {
    ask: (what, given, hear) =>
      new Promise((resolve, reject) => {
        if (over) return reject(over);
        const id = (asked += 1);
        worker!.postMessage({ id, what, given } satisfies ToWorker);
        pending.set(id, {
          resolve,
          reject,
          hear: hear ?? ignore,
        });
      }),
    end: (reason = new WorkerEnded()) => end(reason),
  };
}

const ignore = (): void => undefined;

/** The same without a worker, where there is none to be had: what is asked and answered is cloned as it would be. @internal */
export function askHere<A extends Answers>(answers: A): Asks<A> {
  let over: Error | undefined;
  return {
    ask: async (what, given, hear) => {
      if (over) throw over;
      const tell = (word: unknown): void => {
        if (!over) hear?.(structuredClone(word) as never);
      };
      const answer: unknown = await called(answers, what, structuredClone(given), tell);
      if (over) throw over as Error;
      return structuredClone(answer) as never;
    },
    end: (reason = new WorkerEnded()) => void (over ??= reason),
  };
}

const called = (answers: Answers, what: string, given: unknown, tell: (word: unknown) => void): unknown =>
  answers[what]!(given as never, tell as never);

/** In a worker: answers what the page asks. What is asked while an answer is awaited is begun at once. */
export function answerAsks(answers: Answers): void {
  const scope = globalThis as unknown as {
    onmessage: ((event: { readonly data: ToWorker }) => void) | null;
    postMessage(message: FromWorker): void;
  };
  scope.onmessage = ({ data: { id, what, given } }) => {
    const tell = (word: unknown): void => scope.postMessage({ id, word });
    new Promise((resolve) => resolve(called(answers, what, given, tell)))
      .then((answer) => scope.postMessage({ id, answer }))
      .catch((error: unknown) => {
        const { name, message } = error instanceof Error ? error : new Error(String(error));
        scope.postMessage({ id, failed: { name, message } });
      });
  };
  const { locks } = navigator as Partial<Pick<Navigator, 'locks'>>;
  if (!locks) return scope.postMessage({ lock: undefined });
  const lock = crypto.randomUUID();
  locks
    .request(lock, () => {
      scope.postMessage({ lock });
      return new Promise(ignore);
    })
    // A page of no origin has them refused.
    .catch(() => scope.postMessage({ lock: undefined }));
}

/**
 * Asks one thing at a time, and of what comes meanwhile only the newest. Gives undefined for all that a newer one has
 * overtaken, be it answered or not.
 */
export function newestOnly<W, T>(ask: (wish: W) => Promise<T>): (wish: W) => Promise<T | undefined> {
  let newest = 0;
  let before: Promise<unknown> = Promise.resolve();
  return (wish) => {
    const mine = (newest += 1);
    const isNewest = (): boolean => mine === newest;
    const answer = before
      .then(() => (isNewest() ? ask(wish) : undefined))
      .then(
        (made) => (isNewest() ? made : undefined),
        (error: unknown) => {
          if (isNewest()) throw error;
          return undefined;
        },
      );
    before = answer.catch(ignore);
    return answer;
  };
}
