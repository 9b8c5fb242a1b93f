/** Pictures, charts and shapes that lie over a sheet. Source: ECMA-376 part 1, 20.5 (spreadsheet drawings). */
import type { Package } from '../package';
import { isTrue } from '../xml';
import { XmlTree, type XmlElement } from '../xml-tree';

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
export function readDrawings(file: Package, sheet: string): Drawing[] {
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
