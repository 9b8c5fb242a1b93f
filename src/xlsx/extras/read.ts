/** What a file has on its sheets beside the cells, for showing it. Saving carries it through by itself. */
import { Package } from '../package';
import { readWorkbookPart } from '../workbook-part';
import type { Codec } from '../zip';
import { XmlTree, type XmlElement } from '../xml-tree';
import { readConditions, readPalette, type ConditionalRule } from './conditions';
import { parseCell, parseRange, type RangeAddress } from '../../sheet';
import { unescapeText } from '../read-strings';
import { isTrue } from '../xml';

export interface SheetExtras {
  readonly notes: readonly Note[];
  readonly conditions: readonly ConditionalRule[];
  readonly links: readonly Link[];
  readonly drawings: readonly Drawing[];
}

/**
 * By the sheets' names. Throws XlsxError.
 * @param bytes a file by `withoutCells`, before or after operations
 */
export function readExtras(bytes: Uint8Array, codec?: Codec): ReadonlyMap<string, SheetExtras> {
  const file = new Package(bytes, codec);
  const workbook = readWorkbookPart(file);
  const palette = readPalette(file, workbook);
  return new Map(
    workbook.sheets.map(({ name, part }): [string, SheetExtras] => {
      const { root } = new XmlTree(file.text(part));
      return [
        name,
        {
          notes: readNotes(file, workbook.part, part),
          conditions: readConditions(root, name, palette),
          links: readLinks(file, root, part, name),
          drawings: readDrawings(file, part),
        },
      ];
    }),
  );
}

/** A part as the file has it, such as a picture; undefined where it lacks the part. Throws XlsxError. */
export const readPart = (bytes: Uint8Array, part: string, codec?: Codec): Uint8Array | undefined =>
  new Package(bytes, codec).bytesOf(part);

/** A link of cells. Source: ECMA-376 part 1, 18.3.1.47 (hyperlink); part 2, 9.3 (relationships that lead out of the package). */
export interface Link {
  readonly area: RangeAddress;
  /** As it is written: an address, or "#Parts!A1" for a place in the workbook. Nothing says that it is harmless. */
  readonly target: string;
}

/** @param root the sheet's part without its cells, whose name is `part` */
function readLinks(file: Package, root: XmlElement, part: string, sheet: string): Link[] {
  const addresses = new Map(file.relationships(part).map(({ id, address }) => [id, address]));
  return root.listed('hyperlinks', 'hyperlink').flatMap((element): Link[] => {
    const area = parseRange(element.get('ref') ?? '', sheet);
    const id = element.getPrefixed('id');
    const address = id === undefined ? '' : (addresses.get(id) ?? '');
    const location = unescapeText(element.get('location') ?? '');
    const target = location === '' ? address : `${address}#${location.replace(/^#/, '')}`;
    return area && target !== '' ? [{ area, target }] : [];
  });
}

export interface Note {
  /** From 0. */
  readonly row: number;
  readonly column: number;
  /** Plain text, with who wrote it where the file says so. */
  readonly text: string;
}

/** Notes of a sheet, one a cell. `workbook` and `sheet` are names of parts. */
function readNotes(file: Package, workbook: string, sheet: string): Note[] {
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
  const authors = root.listed('authors', 'author').map(({ text }) => unescapeText(text));
  return root
    .listed('commentList', 'comment')
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

/** A corner: its cell, and how far from the cell's own corner it is, in English metric units (914,400 an inch). */
export interface Corner {
  readonly row: number;
  readonly column: number;
  readonly down: number;
  readonly across: number;
}

export interface Drawing {
  readonly kind: 'picture' | 'chart' | 'shape';
  /** As the file names it: "Chart 1". */
  readonly name: string;
  readonly from: Corner;
  /** The opposite corner, or the size in English metric units. */
  readonly to: Corner | { readonly width: number; readonly height: number };
  /** The part that holds the picture's bytes. */
  readonly picture?: string;
}

const KINDS: Readonly<Record<string, Drawing['kind']>> = {
  pic: 'picture',
  graphicFrame: 'chart',
  sp: 'shape',
  cxnSp: 'shape',
  grpSp: 'shape',
};

/** Drawings of a sheet, the lowest first. `sheet` is the name of its part. */
function readDrawings(file: Package, sheet: string): Drawing[] {
  return file.related(sheet, 'drawing').flatMap((target) => {
    const pictures = new Map(file.relationships(target).map((one) => [one.id, one.target]));
    const { root } = new XmlTree(file.text(target));
    return [...root.walk()].flatMap((element) => {
      const drawing = /^(two|one)CellAnchor$|^absoluteAnchor$/.test(element.name) && drawingIn(element, pictures);
      return drawing ? [drawing] : [];
    });
  });
}

function drawingIn(anchor: XmlElement, pictures: ReadonlyMap<string, string | undefined>): Drawing | undefined {
  // The first of several forms is the one that newer programs show.
  const what = [...anchor.walk()].find(({ name }) => KINDS[name]);
  const from = cornerIn(anchor, 'from') ?? positionIn(anchor);
  const to = cornerIn(anchor, 'to') ?? sizeIn(anchor);
  if (!what || !from || !to) return undefined;
  const properties = [...what.walk()].find(({ name }) => name === 'cNvPr');
  if (isTrue(properties?.get('hidden'))) return undefined;
  const kind = KINDS[what.name]!;
  const blip = kind === 'picture' ? [...what.walk()].find(({ name }) => name === 'blip') : undefined;
  const picture = pictures.get(blip?.getPrefixed('embed') ?? '');
  return { kind, name: properties?.get('name') ?? '', from, to, ...(picture === undefined ? {} : { picture }) };
}

function numbersIn(element: XmlElement | undefined, ...names: readonly string[]): number[] | undefined {
  const numbers = names.map((name) => Number(element?.named(name)[0]?.text ?? NaN));
  return numbers.every(Number.isFinite) ? numbers : undefined;
}

function cornerIn(anchor: XmlElement, name: string): Corner | undefined {
  const found = numbersIn(anchor.named(name)[0], 'row', 'col', 'rowOff', 'colOff');
  return found && { row: found[0]!, column: found[1]!, down: found[2]!, across: found[3]! };
}

/** A place from the sheet's own corner. */
function positionIn(anchor: XmlElement): Corner | undefined {
  const [position] = anchor.named('pos');
  return position && { row: 0, column: 0, down: Number(position.get('y')), across: Number(position.get('x')) };
}

function sizeIn(anchor: XmlElement): { width: number; height: number } | undefined {
  const [size] = anchor.named('ext');
  return size && { width: Number(size.get('cx')), height: Number(size.get('cy')) };
}
