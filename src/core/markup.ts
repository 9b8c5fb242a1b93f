/** Texts in markup, and a picture as a small tree of SVG elements, of which text is written or React elements are made. */

const SIGNS: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** A text as it stands in HTML, SVG and XML, between tags and in attributes with double quotes. */
export const escapeMarkup = (text: string): string => text.replace(/[&<>"]/g, (sign) => SIGNS[sign]!);

export interface SvgNode {
  readonly tag: string;
  /** By their SVG names ("stroke-width"). */
  readonly attributes: Readonly<Record<string, string | number>>;
  readonly children: readonly (SvgNode | string)[];
  /** Unlike its neighbours', and the same as long as the part stands for the same thing. */
  readonly key?: string;
  /** What the part stands for, where it can be picked: an id that came in with the data. */
  readonly pick?: string;
}

export type Child = SvgNode | string | undefined | false | readonly Child[];

export const node = (
  tag: string,
  attributes: Readonly<Record<string, string | number | undefined>> = {},
  ...children: readonly Child[]
): SvgNode => ({
  tag,
  attributes: Object.fromEntries(
    Object.entries(attributes).flatMap(([name, value]) =>
      value === undefined ? [] : [[name, typeof value === 'number' ? tidy(value) : value]],
    ),
  ),
  children: flattened(children),
});

const flattened = (children: readonly Child[]): (SvgNode | string)[] =>
  children.flatMap((child) =>
    isList(child) ? flattened(child) : child === undefined || child === false ? [] : [child],
  );
const isList = (child: Child): child is readonly Child[] => Array.isArray(child);

export const keyed = (key: string, one: SvgNode): SvgNode => ({ ...one, key });

/** A group that can be picked, named for screen readers and as a tooltip. */
export const pickable = (pick: string, name: string, ...children: readonly Child[]): SvgNode => ({
  ...node('g', {}, node('title', {}, name), ...children),
  key: pick,
  pick,
});

/** A hundredth of a pixel is enough, and keeps text short. */
const tidy = (value: number): number => Math.round(value * 100) / 100;

/** The tree as the text of an SVG element, to stand in an HTML page or a file of its own. */
export function toSvgText({ tag, attributes, children }: SvgNode): string {
  const written = Object.entries(attributes)
    .map(([name, value]) => ` ${name}="${withoutControls(String(value))}"`)
    .join('');
  return children.length === 0
    ? `<${tag}${written}/>`
    : `<${tag}${written}>${children.map((child) => (typeof child === 'string' ? withoutControls(child) : toSvgText(child))).join('')}</${tag}>`;
}

/** XML has no place for control characters, escaped or not: one in a name would spoil the whole file. */
const withoutControls = (text: string): string => escapeMarkup(text).replace(/[^\t\n\r\u0020-\uffff]/g, ' ');

/** The attributes by the names that React wants: strokeWidth for stroke-width; aria-… stays. */
export const reactAttributes = ({ attributes }: SvgNode): Record<string, string | number> =>
  Object.fromEntries(
    Object.entries(attributes).map(([name, value]) => [
      /^(?:aria|data)-/.test(name) ? name : name.replace(/-([a-z])/g, (_dash, letter: string) => letter.toUpperCase()),
      value,
    ]),
  );
