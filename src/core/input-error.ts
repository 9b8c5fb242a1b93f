import { unless } from './unless';

/**
 * The one way in which the trade refuses an input.
 *
 * The message has a fixed form, so that every host can show it as it is:
 * "thickness: got -0.02; takes inches above 0 and up to 1".
 */
export class InputError extends Error {
  override readonly name = 'InputError';

  /**
   * @param parameter the parameter at fault, by the name that its user sees
   * @param got       the value as it came
   * @param takes     what the parameter takes, in words and with its unit
   * @param guess     what the user may have meant, a sentence without full stop
   */
  constructor(
    readonly parameter: string,
    readonly got: unknown,
    readonly takes: string,
    readonly guess?: string,
  ) {
    super(`${parameter}: got ${show(got)}; takes ${takes}${guess ? `. ${guess}` : ''}`);
  }

  /** The same refusal, named by the place that the value came from, or of the value in another unit. */
  at(parameter: string, got = this.got): InputError {
    const Kind = this instanceof NotListedError ? NotListedError : InputError;
    return new Kind(parameter, got, this.takes, this.guess);
  }
}

/** A value as a short piece of a message: text in quotes, long text cut, a blank named. */
export function show(value: unknown): string {
  if (value === null || value === undefined || value === '') return 'a blank';
  if (typeof value === 'string') return `"${value.length > 40 ? `${value.slice(0, 37)}…` : value}"`;
  if (typeof value === 'number')
    return Number.isFinite(value) ? String(Number(value.toPrecision(10))) : 'a number that is not finite';
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  return Array.isArray(value)
    ? `${value.length} × ${Array.isArray(value[0]) ? value[0].length : 1} cells`
    : String(value);
}

/** "sheet, bar or rivet", for messages. */
export const alternatives = (words: readonly (string | number)[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;

/** What was asked for is well formed but not in a table: an item without a price, a gauge that is not made. */
export class NotListedError extends InputError {}

/** Refuses an input where what is asked of it is missing: `read(text) ?? refuse('gauge', text, …)`. */
export function refuse(...refusal: ConstructorParameters<typeof InputError>): never {
  throw new InputError(...refusal);
}

/** The same where no table has it. */
export function refuseUnlisted(...refusal: ConstructorParameters<typeof NotListedError>): never {
  throw new NotListedError(...refusal);
}

/**
 * What `find` gives; where it refuses an input, what `refused` makes of that, and undefined without it. Any other error
 * is a fault of ours and goes on.
 */
export function unlessRefused<T, R = undefined>(find: () => T, refused?: (error: InputError) => R): T | R {
  try {
    return find();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return refused?.(error) as R;
  }
}

/** What `find` gives; undefined where no table has it. */
export const ifListed = <T>(find: () => T): T | undefined => unless(NotListedError, find);
