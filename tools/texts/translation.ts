/** A translation held against the texts that there are. */
import { partsOf } from './message';

export type Translation = Readonly<Record<string, string>>;

export interface Compared {
  /** Texts that are shown in English. */
  readonly lacks: readonly string[];
  /** Texts that the pane no longer has. */
  readonly tooMany: readonly string[];
  /** What would be shown wrongly, a line each. */
  readonly faults: readonly string[];
}

export function compareTranslation(texts: Iterable<string>, translation: Translation): Compared {
  const known = new Set(texts);
  const faults: string[] = [];
  for (const [english, translated] of Object.entries(translation)) {
    if (!known.has(english)) continue;
    const [there, here] = [partsOf(english), partsOf(translated)];
    if (translated.trim() === '') faults.push(`“${english}” is translated by nothing: leave it out`);
    else if (translated.includes("'")) faults.push(`“${translated}” has a plain apostrophe: write ’`);
    else if ('wrong' in here) faults.push(`“${translated}” is no ICU message: ${here.wrong}`);
    else if (!('wrong' in there) && there.names.join() !== here.names.join())
      faults.push(
        `“${english}” has the places {${there.names.join('}, {')}}, its translation {${here.names.join('}, {')}}`,
      );
  }
  return {
    lacks: [...known].filter((text) => !Object.hasOwn(translation, text)),
    tooMany: Object.keys(translation).filter((text) => !known.has(text)),
    faults,
  };
}
