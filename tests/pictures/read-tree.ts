/** What a picture's tree says and where its texts stand, by the same estimate of widths that it is laid out with. */
import type { SvgNode } from '../../src/core/markup';
import { textWidth } from '../../src/core/text-width';

export interface SeenText {
  readonly words: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export const nodesOf = (one: SvgNode): SvgNode[] => [
  one,
  ...one.children.flatMap((child) => (typeof child === 'string' ? [] : nodesOf(child))),
];
export const wordsOf = (one: SvgNode): string =>
  one.children.map((child) => (typeof child === 'string' ? child : wordsOf(child))).join('');

export function textsOf(picture: SvgNode): SeenText[] {
  return nodesOf(picture)
    .filter(({ tag }) => tag === 'text')
    .map((one) => {
      const { x, y, 'font-size': size, 'text-anchor': anchor, 'font-weight': weight } = one.attributes;
      const words = wordsOf(one);
      const width = textWidth(words, Number(size), weight !== undefined);
      const left = Number(x) - (anchor === 'end' ? width : anchor === 'middle' ? width / 2 : 0);
      return {
        words,
        left,
        right: left + width,
        top: Number(y) - 0.75 * Number(size),
        bottom: Number(y) + 0.2 * Number(size),
      };
    });
}

/** Pairs of texts that lie on each other. */
export function collisions(texts: readonly SeenText[]): [string, string][] {
  return texts.flatMap((a, index) =>
    texts
      .slice(index + 1)
      .filter(
        (b) =>
          Math.min(a.right, b.right) - Math.max(a.left, b.left) > 0.5 &&
          Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0.5,
      )
      .map((b): [string, string] => [a.words, b.words]),
  );
}

/** Texts that reach out of the picture, and numbers that are none. */
export function faults(picture: SvgNode): string[] {
  const [, , width, height] = String(picture.attributes['viewBox']).split(' ').map(Number) as [
    number,
    number,
    number,
    number,
  ];
  const cut = textsOf(picture).filter(
    ({ left, right, top, bottom }) => left < -1 || right > width + 1 || top < -1 || bottom > height + 1,
  );
  const broken = nodesOf(picture).filter(({ attributes }) =>
    Object.values(attributes).some((value) => /NaN|Infinity|undefined/.test(String(value))),
  );
  return [
    ...cut.map(({ words }) => `cut off: ${words}`),
    ...broken.map(({ tag, attributes }) => `${tag} ${JSON.stringify(attributes)}`),
  ];
}
