/**
 * Notes of cells, and threads of comments. A thread stands in a part of its own, and once more as a note for programs
 * that know no threads. Source: ECMA-376 part 1, 18.7 (comments); [MS-XLSX] 2.6.201 to 2.6.208 (threaded comments).
 */
import { parseCell } from '../../sheet';
import type { Package } from '../package';
import { unescapeText } from '../read-strings';
import { XmlTree, type XmlElement } from '../xml-tree';

export interface Note {
  /** From 0. */
  readonly row: number;
  readonly column: number;
  /** Plain text, with who wrote it where the file says so. */
  readonly text: string;
}

/** Notes of a sheet, one a cell. `workbook` and `sheet` are names of parts. */
export function readNotes(file: Package, workbook: string, sheet: string): Note[] {
  const parts = (type: string): XmlElement[] =>
    file.related(sheet, type).map((part) => new XmlTree(file.text(part)).root);
  const texts = new Map<string, string>();
  for (const root of parts('comments')) for (const [ref, text] of notesIn(root)) texts.set(ref, text);
  const threads = parts('threadedComment');
  if (threads.length) for (const [ref, text] of threadsIn(threads, personsOf(file, workbook))) texts.set(ref, text);
  return [...texts].flatMap(([ref, text]): Note[] => {
    const place = parseCell(ref);
    return place && text !== '' ? [{ ...place, text }] : [];
  });
}

function notesIn(root: XmlElement): [ref: string, text: string][] {
  const authors = root.named('authors').flatMap((list) => list.named('author').map(({ text }) => unescapeText(text)));
  return root
    .named('commentList')
    .flatMap((list) => list.named('comment'))
    .map((comment) => [
      comment.get('ref') ?? '',
      withAuthor(authors[Number(comment.get('authorId'))], comment.named('text').map(runsText).join('')),
    ]);
}

/** Runs of text joined, without hints of how they are spoken. */
function runsText(element: XmlElement): string {
  const pieces = element.elements.map((one) =>
    one.name === 't' ? unescapeText(one.text) : one.name === 'rPh' ? '' : runsText(one),
  );
  return pieces.join('');
}

/** Most programs begin a note with the name of its writer. */
function withAuthor(author: string | undefined, text: string): string {
  const plain = text.replace(/\r\n?/g, '\n').trim();
  return !author || plain === '' || plain.startsWith(author) ? plain : `${author}: ${plain}`;
}

function personsOf(file: Package, workbook: string): ReadonlyMap<string, string> {
  const persons = file.related(workbook, 'person').flatMap((part) => new XmlTree(file.text(part)).root.named('person'));
  return new Map(persons.map((one) => [one.get('id') ?? '', one.get('displayName') ?? '']));
}

/** All comments of a cell in the order of the file: answers follow what they answer. */
function threadsIn(roots: readonly XmlElement[], persons: ReadonlyMap<string, string>): ReadonlyMap<string, string> {
  const threads = new Map<string, string>();
  for (const root of roots)
    for (const comment of root.named('threadedComment')) {
      const ref = comment.get('ref') ?? '';
      const text = withAuthor(
        persons.get(comment.get('personId') ?? ''),
        comment
          .named('text')
          .map(({ text }) => unescapeText(text))
          .join(''),
      );
      const before = threads.get(ref);
      threads.set(ref, before === undefined ? text : `${before}\n${text}`);
    }
  return threads;
}
