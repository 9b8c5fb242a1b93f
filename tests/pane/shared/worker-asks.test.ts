/** The page's and the worker's side of asking, joined by channels of Node in the place of a worker. */
import { afterEach, beforeEach, describe, expect, it, onTestFinished, vi } from 'vitest';
import {
  answerAsks,
  askHere,
  askWorker,
  newestOnly,
  NoWorker,
  WorkerDied,
  WorkerEnded,
  type Asks,
} from '../../../src/pane/shared/worker-asks';

const answers = {
  double: (number: number) => number * 2,
  count: async (to: number, tell: (done: number) => void) => {
    for (let done = 1; done <= to; done++) {
      await Promise.resolve();
      tell(done);
    }
    return 'counted';
  },
  refuse: () => {
    throw Object.assign(new Error('thickness: got 20'), { name: 'InputError' });
  },
  never: () => new Promise<number>(() => undefined),
  echo: (given: unknown) => given,
};

/** Locks as a browser has them: one that is asked for is given when its holder lets go. */
class Locks {
  private readonly waiting = new Map<string, (() => unknown)[]>();
  request(name: string, grant: () => unknown): Promise<unknown> {
    const line = this.waiting.get(name) ?? [];
    this.waiting.set(name, [...line, grant]);
    if (line.length === 0) void grant();
    return new Promise(() => undefined);
  }
  /** What happens when the holder of all locks dies. */
  letGo(): void {
    for (const [, next] of this.waiting.values()) next?.();
  }
}

/** A worker that runs `answerAsks` with this module's answers. */
class Joined {
  static last: Joined;
  terminated = false;
  onmessage: ((event: { data: unknown }) => void) | undefined;
  onerror: ((event: { message: string }) => void) | undefined;
  private readonly scope = globalThis as unknown as { onmessage: (event: { data: unknown }) => void };

  constructor() {
    Joined.last = this;
    vi.stubGlobal('postMessage', (data: unknown) => {
      const cloned = structuredClone(data);
      setTimeout(() => this.terminated || this.onmessage?.({ data: cloned }));
    });
    answerAsks(answers);
  }
  postMessage(data: unknown): void {
    const cloned = structuredClone(data);
    setTimeout(() => this.terminated || this.scope.onmessage({ data: cloned }));
  }
  terminate(): void {
    this.terminated = true;
  }
}

const started = (): Asks<typeof answers> => {
  const asks = askWorker<typeof answers>(() => new Joined() as unknown as Worker);
  onTestFinished(() => asks.end());
  return asks;
};

let locks: Locks;
beforeEach(() => {
  locks = new Locks();
  vi.stubGlobal('navigator', { locks });
  vi.stubGlobal('onmessage', null);
});
afterEach(() => vi.unstubAllGlobals());

describe.each([
  ['a worker', started],
  ['the page’s own thread', () => askHere(answers)],
])('%s', (_name, start) => {
  it('answers each ask with its own answer', async () => {
    const asks = start();
    expect(await Promise.all([asks.ask('double', 2), asks.ask('echo', 'a'), asks.ask('double', 4)])).toEqual([
      4,
      'a',
      8,
    ]);
  });

  it('tells word before the answer', async () => {
    const heard: number[] = [];
    expect(await start().ask('count', 3, (done) => heard.push(done))).toBe('counted');
    expect(heard).toEqual([1, 2, 3]);
  });

  it('fails with the name and the message of what was thrown', async () => {
    await expect(start().ask('refuse', undefined)).rejects.toMatchObject({
      name: 'InputError',
      message: 'thickness: got 20',
    });
  });

  it('fails for what cannot be cloned, and goes on', async () => {
    const asks = start();
    await expect(asks.ask('echo', () => 1)).rejects.toMatchObject({ name: 'DataCloneError' });
    expect(await asks.ask('double', 2)).toBe(4);
  });

  it('answers nothing any more once it is ended', async () => {
    const asks = start();
    asks.end();
    await expect(asks.ask('double', 2)).rejects.toThrow(WorkerEnded);
  });
});

describe('a worker', () => {
  it('that is ended fails what it has not answered, with the reason', async () => {
    const asks = started();
    const asked = asks.ask('never', undefined);
    asks.end(new Error('let go'));
    await expect(asked).rejects.toThrow('let go');
    expect(Joined.last.terminated).toBe(true);
  });

  it('that dies without a word fails what it has not answered, and all that is asked after', async () => {
    const asks = started();
    await asks.ask('double', 1);
    const asked = asks.ask('never', undefined);
    locks.letGo();
    await expect(asked).rejects.toThrow(WorkerDied);
    await expect(asks.ask('double', 1)).rejects.toThrow(WorkerDied);
  });

  it('whose script fails later has died', async () => {
    const asks = started();
    await asks.ask('double', 1);
    const asked = asks.ask('never', undefined);
    Joined.last.onerror!({ message: 'Uncaught RangeError' });
    await expect(asked).rejects.toThrow(WorkerDied);
  });

  it('whose file is not found is none', async () => {
    const asks = started();
    const asked = asks.ask('double', 1);
    Joined.last.onerror!({ message: '' });
    await expect(asked).rejects.toThrow(NoWorker);
  });

  it('that the host forbids is none', async () => {
    const asks = askWorker<typeof answers>(() => {
      throw new Error('forbidden');
    });
    await expect(asks.ask('double', 1)).rejects.toThrow(NoWorker);
  });

  it('serves where a browser has no locks', async () => {
    vi.stubGlobal('navigator', {});
    expect(await started().ask('double', 3)).toBe(6);
  });
});

describe('asking for the newest only', () => {
  it('skips what was overtaken before its turn, and drops the answer of what was overtaken then', async () => {
    const asked: string[] = [];
    let answer: (text: string) => void = () => undefined;
    const newest = newestOnly((wish: string) => {
      asked.push(wish);
      return new Promise<string>((resolve) => (answer = resolve));
    });
    const first = newest('.0');
    await Promise.resolve();
    const [second, third] = [newest('.02'), newest('.025')];
    answer('thin');
    expect(await first).toBeUndefined();
    expect(await second).toBeUndefined();
    await expect.poll(() => asked).toEqual(['.0', '.025']);
    answer('thick');
    expect(await third).toBe('thick');
  });

  it('says of a failure only where it is the newest, and asks again after it', async () => {
    const newest = newestOnly((wish: string) =>
      wish === 'bad' ? Promise.reject(new Error('no')) : Promise.resolve(wish),
    );
    const [overtaken, last] = [newest('bad'), newest('bad')];
    expect(await overtaken).toBeUndefined();
    await expect(last).rejects.toThrow('no');
    expect(await newest('good')).toBe('good');
  });
});
