/** Cell formats for a patch: an existing one where it looks right, else a new one at the end of the list. */
import type { StyleModel } from '../sheet';
import { elementsOf, insertLast, prefixOf, recount, withChild } from './elements';
import { BUILT_IN_FORMATS, readStyles } from './read-styles';
import { escapeXml, XmlScanner } from './xml';

const ORDER = [
  'numFmts',
  'fonts',
  'fills',
  'borders',
  'cellStyleXfs',
  'cellXfs',
  'cellStyles',
  'dxfs',
  'tableStyles',
  'colors',
  'extLst',
];
/** Order of a font's properties in which programs read them. Source: ECMA-376 part 1, 18.8.22, as programs write it. */
const FONT_ORDER = [
  'b',
  'i',
  'strike',
  'condense',
  'extend',
  'outline',
  'shadow',
  'u',
  'vertAlign',
  'sz',
  'color',
  'name',
  'family',
  'charset',
  'scheme',
];
const FIRST_CUSTOM_FORMAT = 164;

export class StylePatcher {
  /** True once the part's text differs from what was given. */
  changed = false;
  private readonly known: StyleModel[];
  private readonly made = new Map<string, number>();

  constructor(
    public xml: string,
    theme: string | undefined,
  ) {
    this.known = readStyles(xml, theme);
  }

  /** Index of the cell format with these looks that is otherwise like format `base`. */
  format(style: StyleModel, base: number): number {
    const own = this.known[base] ?? {};
    if (sameLooks(own, style)) return base;
    const key = `${base} ${looksKey(style)}`;
    const index = this.made.get(key) ?? this.findKnown(style, own, base) ?? this.append(style, own, base);
    this.made.set(key, index);
    return index;
  }

  look(format: number): StyleModel {
    return this.known[format] ?? {};
  }

  /** A format with the looks that is otherwise like the base: in protection, named style, font and borders. */
  private findKnown(style: StyleModel, own: StyleModel, base: number): number | undefined {
    if (!this.known.some((one) => sameLooks(one, style))) return undefined;
    const formats = childrenOf(this.xml, 'cellXfs', 'xf');
    const names = childrenOf(this.xml, 'fonts', 'font').map(({ inside }) => propertiesOf(inside).get('name'));
    const rest = ({ attributes, inside }: Child): string => {
      const border = style.borderBottom === own.borderBottom ? attributes.get('borderId') : '';
      return [
        attributes.get('xfId'),
        names[Number(attributes.get('fontId') ?? 0)],
        border,
        /<protection[^>]*>/.exec(inside)?.[0],
      ].join('\n');
    };
    const wanted = rest(formats[base] ?? DEFAULT_FORMAT);
    const index = this.known.findIndex(
      (one, at) => sameLooks(one, style) && rest(formats[at] ?? DEFAULT_FORMAT) === wanted,
    );
    return index < 0 ? undefined : index;
  }

  private append(style: StyleModel, own: StyleModel, base: number): number {
    const xf = childrenOf(this.xml, 'cellXfs', 'xf')[base] ?? DEFAULT_FORMAT;
    const attributes = new Map(xf.attributes);
    if (style.numberFormat !== own.numberFormat)
      set(attributes, 'numFmtId', this.numberFormat(style.numberFormat), 'applyNumberFormat');
    if (
      style.bold !== own.bold ||
      style.italic !== own.italic ||
      style.size !== own.size ||
      style.color !== own.color
    ) {
      set(attributes, 'fontId', this.font(style, Number(attributes.get('fontId') ?? 0)), 'applyFont');
    }
    if (style.fill !== own.fill)
      set(attributes, 'fillId', style.fill ? this.add('fills', 'fill', fillXml(style.fill)) : 0, 'applyFill');
    if (style.borderBottom !== own.borderBottom)
      set(attributes, 'borderId', style.borderBottom ? this.add('borders', 'border', BORDER) : 0, 'applyBorder');
    let inside = xf.inside;
    if (style.align !== own.align || style.wrap !== own.wrap) {
      attributes.set('applyAlignment', '1');
      inside = alignmentXml(style) + inside.replace(/<alignment[^>]*(?:\/>|>.*?<\/alignment>)/s, '');
    }
    const text = [...attributes].map(([name, value]) => ` ${name}="${escapeXml(value)}"`).join('');
    this.known.push(style);
    return this.add('cellXfs', 'xf', inside ? `<xf${text}>${inside}</xf>` : `<xf${text}/>`);
  }

  /** Adds an element to a list and returns its index. */
  private add(list: string, child: string, element: string): number {
    const before = childrenOf(this.xml, list, child).length;
    this.xml = recount(insertLast(this.xml, list, element), list, child);
    this.changed = true;
    return before;
  }

  private numberFormat(format: string | undefined): number {
    if (format === undefined) return 0;
    const own = elementsOf(this.xml, 'numFmt').map(
      ({ attributes }) => [Number(attributes.get('numFmtId')), attributes.get('formatCode') ?? ''] as const,
    );
    const found =
      [...BUILT_IN_FORMATS].find(([, code]) => code === format) ?? own.findLast(([, code]) => code === format);
    if (found) return found[0];
    const id = Math.max(FIRST_CUSTOM_FORMAT - 1, ...own.map(([one]) => one)) + 1;
    this.xml = withChild(this.xml, 'numFmts', ORDER);
    this.add('numFmts', 'numFmt', `<numFmt numFmtId="${id}" formatCode="${escapeXml(format)}"/>`);
    return id;
  }

  private font(style: StyleModel, base: number): number {
    const fonts = childrenOf(this.xml, 'fonts', 'font');
    const parts = new Map(propertiesOf(fonts[base]?.inside ?? ''));
    const put = (name: string, value: string | undefined): unknown =>
      value === undefined ? parts.delete(name) : parts.set(name, value);
    put('b', style.bold ? '<b/>' : undefined);
    put('i', style.italic ? '<i/>' : undefined);
    const standard = propertiesOf(fonts[0]?.inside ?? '').get('sz');
    put('sz', style.size ? `<sz val="${style.size}"/>` : standard);
    if (style.color !== this.known[0]?.color || style.color)
      put('color', style.color ? `<color rgb="FF${style.color.slice(1).toUpperCase()}"/>` : undefined);
    const ordered = [...parts].sort(([a], [b]) => FONT_ORDER.indexOf(a) - FONT_ORDER.indexOf(b));
    return this.add('fonts', 'font', `<font>${ordered.map(([, text]) => text).join('')}</font>`);
  }
}

function set(attributes: Map<string, string>, name: string, index: number, apply: string): void {
  attributes.set(name, String(index));
  attributes.set(apply, '1');
}

interface Child {
  readonly attributes: ReadonlyMap<string, string>;
  readonly inside: string;
}

const DEFAULT_FORMAT: Child = {
  attributes: new Map(['numFmtId', 'fontId', 'fillId', 'borderId', 'xfId'].map((name) => [name, '0'])),
  inside: '',
};

/** Children of the first list of a name: attributes, and the text inside without the list's prefix. */
function childrenOf(xml: string, list: string, child: string): Child[] {
  const [whole] = elementsOf(xml, list);
  if (!whole) return [];
  const text = xml.slice(whole.start, whole.end);
  const prefix = prefixOf(text);
  const bare = prefix ? text.replaceAll(`<${prefix}`, '<').replaceAll(`</${prefix}`, '</') : text;
  return elementsOf(bare, child).map(({ attributes, inside, end }) => {
    const inner = bare.slice(inside, end);
    return { attributes, inside: inner.slice(0, Math.max(0, inner.lastIndexOf('</'))) };
  });
}

/** The properties of a font by name. */
function propertiesOf(inside: string): Map<string, string> {
  const parts = new Map<string, string>();
  const scanner = new XmlScanner(inside);
  for (const token of scanner.tags()) {
    const { start, name } = scanner;
    scanner.pass(token);
    parts.set(name, inside.slice(start, scanner.end));
  }
  return parts;
}

const fillXml = (color: string): string =>
  `<fill><patternFill patternType="solid"><fgColor rgb="FF${color.slice(1).toUpperCase()}"/><bgColor indexed="64"/></patternFill></fill>`;
const BORDER = '<border><left/><right/><top/><bottom style="thin"><color auto="1"/></bottom><diagonal/></border>';

const alignmentXml = ({ align, wrap }: StyleModel): string =>
  align || wrap
    ? `<alignment${align ? ` horizontal="${align}"` : ''}${wrap ? ' wrapText="1" vertical="top"' : ''}/>`
    : '';

const LOOKS = ['numberFormat', 'bold', 'italic', 'size', 'color', 'fill', 'align', 'wrap', 'borderBottom'] as const;

/** A text that is the same for styles with the same looks. */
export const looksKey = (style: StyleModel): string => LOOKS.map((name) => `${style[name] || ''}`).join('\n');

const sameLooks = (a: StyleModel, b: StyleModel): boolean => LOOKS.every((name) => (a[name] || '') === (b[name] || ''));
