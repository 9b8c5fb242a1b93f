/** Where labels can stand without lying on each other or leaving the picture. */
import { textWidth } from '../core/text-width';

// Texts in lines, so that labels can be laid out without a browser.

/** The text in lines no wider than `width`: broken at blanks, and inside a word only where the word alone is too wide. */
export function wrapText(text: string, width: number, size: number, bold = false): string[] {
  const fits = (line: string): boolean => textWidth(line, size, bold) <= width;
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter(Boolean)) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (fits(longer)) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    const pieces = broken(word, fits);
    lines.push(...pieces.slice(0, -1));
    line = pieces.at(-1)!;
  }
  return line === '' && lines.length > 0 ? lines : [...lines, line];
}

function broken(word: string, fits: (piece: string) => boolean): string[] {
  const pieces = [''];
  for (const sign of word) {
    const longer = pieces.at(-1)! + sign;
    if (fits(longer) || pieces.at(-1) === '') pieces[pieces.length - 1] = longer;
    else pieces.push(sign);
  }
  return pieces;
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export type Align = 'start' | 'middle' | 'end';

/** A place to try: the point that the label is tied to, and how it stands to it. */
export interface Place {
  readonly x: number;
  readonly y: number;
  readonly align: Align;
  /** The label above the point, beside it or below. */
  readonly side: 'above' | 'beside' | 'below';
}

export interface LabelRequest {
  readonly lines: readonly string[];
  readonly size: number;
  readonly bold?: boolean;
  /** Best first. */
  readonly places: readonly Place[];
}

export interface PlacedLabel extends LabelRequest {
  readonly place: Place;
  readonly box: Box;
  /** Baseline of the first line. */
  readonly baseline: number;
  /** False where every place lies on something else. */
  readonly free: boolean;
}

export const LINE = 1.25;

const overlapArea = (a: Box, b: Box): number =>
  Math.max(0, Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x)) *
  Math.max(0, Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y));

/** Area of a box outside of the bounds. */
const outsideArea = (box: Box, bounds: Box): number => box.width * box.height - overlapArea(box, bounds);

function boxAt({ lines, size, bold }: LabelRequest, { x, y, align, side }: Place): Box {
  const width = Math.max(...lines.map((line) => textWidth(line, size, bold)));
  const height = lines.length * size * LINE;
  return {
    x: align === 'start' ? x : align === 'end' ? x - width : x - width / 2,
    y: side === 'above' ? y - height : side === 'below' ? y : y - height / 2,
    width,
    height,
  };
}

/** Each label at the first of its places that is free, the least covered where none is; of several orders of placing, the best. */
export function placeLabels(requests: readonly LabelRequest[], obstacles: readonly Box[], bounds: Box): PlacedLabel[] {
  const straight = requests.map((_, index) => index);
  const orders = straight.flatMap((first) => {
    const turned = [...straight.slice(first), ...straight.slice(0, first)];
    return [turned, [...turned].reverse()];
  });
  let best: { labels: PlacedLabel[]; cost: number } | undefined;
  for (const order of orders) {
    const tried = placeInOrder(requests, order, obstacles, bounds);
    if (!best || tried.cost < best.cost - 1e-6) best = tried;
    if (best.cost < 1e-6) break;
  }
  return best?.labels ?? [];
}

function placeInOrder(
  requests: readonly LabelRequest[],
  order: readonly number[],
  obstacles: readonly Box[],
  bounds: Box,
): { labels: PlacedLabel[]; cost: number } {
  const taken: Box[] = [...obstacles];
  const labels: PlacedLabel[] = [];
  let total = 0;
  for (const index of order) {
    const request = requests[index]!;
    let best: { place: Place; box: Box; cost: number } | undefined;
    for (const place of request.places) {
      const box = boxAt(request, place);
      const cost = taken.reduce((sum, one) => sum + overlapArea(box, one), 0) + 10 * outsideArea(box, bounds);
      if (!best || cost < best.cost - 1e-6) best = { place, box, cost };
      if (best.cost < 1e-6) break;
    }
    const { place, box, cost } = best!;
    taken.push(box);
    total += cost;
    labels[index] = { ...request, place, box, baseline: box.y + request.size * 0.95, free: cost < 1e-6 };
  }
  return { labels, cost: total };
}

/** Small boxes along a line, so that labels keep off it. */
export function alongLine(x1: number, y1: number, x2: number, y2: number, half = 2): Box[] {
  const count = Math.max(1, Math.ceil(Math.hypot(x2 - x1, y2 - y1) / (2 * half)));
  return Array.from({ length: count + 1 }, (_, index) => ({
    x: x1 + ((x2 - x1) * index) / count - half,
    y: y1 + ((y2 - y1) * index) / count - half,
    width: 2 * half,
    height: 2 * half,
  }));
}

/** Places around a point, right first, nearest first; `reach` is how far off a mark's edge is. */
export const placesAround = (x: number, y: number, reach: number): Place[] =>
  [reach, reach + 7, reach + 14, reach + 22, reach + 30, reach + 40, reach + 54, reach + 70, reach + 90].flatMap(
    (off): Place[] => [
      { x: x + off, y, align: 'start', side: 'beside' },
      { x: x - off, y, align: 'end', side: 'beside' },
      { x, y: y - off, align: 'middle', side: 'above' },
      { x, y: y + off, align: 'middle', side: 'below' },
      { x: x + off * 0.7, y: y - off * 0.7, align: 'start', side: 'above' },
      { x: x + off * 0.7, y: y + off * 0.7, align: 'start', side: 'below' },
      { x: x - off * 0.7, y: y - off * 0.7, align: 'end', side: 'above' },
      { x: x - off * 0.7, y: y + off * 0.7, align: 'end', side: 'below' },
    ],
  );

/** Heights moved apart so that none is nearer than `gap` to the next, inside a range, each as near its wish as that allows. */
export function spread(wished: readonly number[], gap: number, from: number, to: number): number[] {
  const order = wished.map((_, index) => index).sort((a, b) => wished[a]! - wished[b]!);
  const at = order.map((index) => wished[index]!);
  // Groups that touch move as one, to the mean of what they wish.
  const groups: { first: number; count: number; sum: number }[] = [];
  at.forEach((y, index) => {
    groups.push({ first: index, count: 1, sum: y });
    for (
      let last = groups.at(-1)!, before = groups.at(-2);
      before && top(before, gap, from, to) + before.count * gap > top(last, gap, from, to);
      last = groups.at(-1)!, before = groups.at(-2)
    ) {
      groups.splice(-2, 2, { first: before.first, count: before.count + last.count, sum: before.sum + last.sum });
    }
  });
  const result: number[] = [];
  for (const group of groups)
    for (let index = 0; index < group.count; index++)
      result[order[group.first + index]!] = top(group, gap, from, to) + index * gap;
  return result;
}

const top = ({ count, sum }: { count: number; sum: number }, gap: number, from: number, to: number): number =>
  Math.max(from, Math.min(to - (count - 1) * gap, sum / count - ((count - 1) * gap) / 2));
