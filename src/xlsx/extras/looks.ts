/** Looks that conditional formats give (dxf). Source: ECMA-376 part 1, 18.8.14 (dxf), 18.8.32 (patternFill). */
import { colorOf, themeColors } from '../colors';
import type { Package } from '../package';
import type { WorkbookPart } from '../workbook-part';
import { parseTree, type XmlElement } from '../xml-tree';

/** What a rule changes in the look of a cell; what it leaves out stays as the cell has it. */
export interface ConditionalLook {
  readonly bold?: boolean;
  readonly italic?: boolean;
  readonly underline?: boolean;
  readonly strike?: boolean;
  /** "#rrggbb" */
  readonly color?: string;
  readonly fill?: string;
  /** A thin line around the cell. */
  readonly border?: boolean;
}

/** What elements of looks and colours mean in a workbook. */
export interface Palette {
  /** By the index that rules name. */
  readonly looks: readonly ConditionalLook[];
  color(element: XmlElement | undefined): string | undefined;
  look(dxf: XmlElement): ConditionalLook;
}

export function readPalette(file: Package, { styles, theme }: WorkbookPart): Palette {
  const colors = theme && file.has(theme) ? themeColors(file.text(theme)) : [];
  const color = (element: XmlElement | undefined): string | undefined =>
    element && colorOf((name) => element.get(name), colors);
  const look = (dxf: XmlElement): ConditionalLook => lookOf(dxf, color);
  const root = styles ? parseTree(file.text(styles)).root : undefined;
  const looks = root?.named('dxfs').flatMap((list) => list.named('dxf').map(look)) ?? [];
  return { looks, color, look };
}

function lookOf(dxf: XmlElement, color: Palette['color']): ConditionalLook {
  const [font] = dxf.named('font');
  const [border] = dxf.named('border');
  const textColor = color(font?.named('color')[0]);
  const fill = fillOf(dxf.named('fill')[0]?.named('patternFill')[0], color);
  const has = (name: string): boolean | undefined => {
    const [element] = font?.named(name) ?? [];
    return element && !/^(0|false|none)$/.test(element.get('val') ?? '1');
  };
  return {
    ...given('bold', has('b')),
    ...given('italic', has('i')),
    ...given('underline', has('u')),
    ...given('strike', has('strike')),
    ...given('color', textColor),
    ...given('fill', fill),
    ...given('border', border?.elements.some((side) => (side.get('style') ?? 'none') !== 'none') || undefined),
  };
}

const given = <K extends string, V>(key: K, value: V | undefined): Partial<Record<K, V>> =>
  value === undefined ? {} : ({ [key]: value } as Record<K, V>);

/** In these looks a plain fill has its colour as that of the background, unlike those of cells. */
function fillOf(pattern: XmlElement | undefined, color: Palette['color']): string | undefined {
  if (!pattern || pattern.get('patternType') === 'none') return undefined;
  return color(pattern.named('bgColor')[0]) ?? color(pattern.named('fgColor')[0]);
}
