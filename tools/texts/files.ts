/** Where the pane's texts and their translations lie. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import type { Collected, SourceFile } from './collect';
import type { Translation } from './translation';

const PANE = 'src/pane';
const PICTURES = 'src/pictures';
/** Panels of the bench that are shown in the pane's language. */
const BENCH = 'src/hosts/bench/lists';
export const TEXTS = `${PANE}/locale/texts.json`;
export const TRANSLATIONS = `${PANE}/locale/translations`;

/** The source of the pane, of its pictures and of what is shown beside it, in the order of their paths. */
export const paneSource = (root: string): SourceFile[] =>
  [BENCH, PANE, PICTURES].flatMap((folder) => sourceIn(root, folder));

function sourceIn(root: string, folder: string): SourceFile[] {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
    .map((path) => ({ path: relative(root, path).replaceAll('\\', '/'), source: readFileSync(path, 'utf8') }));
}

/**
 * The file of the texts in the form in which ICU messages are handed to translators, by id, default message
 * and description: the id is the English text itself, the description says which files show it.
 */
export function textsFile({ texts }: Collected): string {
  const entries = [...texts].map(([text, places]) => [
    text,
    { defaultMessage: text, description: places.map((path) => path.replace(/^src\/(?:pane\/)?/, '')).join(', ') },
  ]);
  return `${JSON.stringify(Object.fromEntries(entries), null, 2)}\n`;
}

/** The translations by their tags. */
export function translations(root: string): Map<string, Translation> {
  const files = readdirSync(join(root, TRANSLATIONS)).filter((name) => name.endsWith('.json'));
  return new Map(
    files
      .sort()
      .map((name) => [
        name.slice(0, -'.json'.length),
        JSON.parse(readFileSync(join(root, TRANSLATIONS, name), 'utf8')) as Translation,
      ]),
  );
}
