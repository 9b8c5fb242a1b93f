/** Cell styles of a workbook: index of a cell's style → the looks that the model carries; number formats and colours. */
import { isTrue, XmlScanner } from './xml';
import type { StyleModel } from '../sheet';

/** Number formats that files name by number only. Source: ECMA-376 part 1, 18.8.30 (numFmt). */
export const BUILT_IN_FORMATS: ReadonlyMap<number, string> = new Map([
  [1, '0'],
  [2, '0.00'],
  [3, '#,##0'],
  [4, '#,##0.00'],
  [9, '0%'],
  [10, '0.00%'],
  [11, '0.00E+00'],
  [12, '# ?/?'],
  [13, '# ??/??'],
  [14, 'mm-dd-yy'],
  [15, 'd-mmm-yy'],
  [16, 'd-mmm'],
  [17, 'mmm-yy'],
  [18, 'h:mm AM/PM'],
  [19, 'h:mm:ss AM/PM'],
  [20, 'h:mm'],
  [21, 'h:mm:ss'],
  [22, 'm/d/yy h:mm'],
  [37, '#,##0 ;(#,##0)'],
  [38, '#,##0 ;[Red](#,##0)'],
  [39, '#,##0.00;(#,##0.00)'],
  [40, '#,##0.00;[Red](#,##0.00)'],
  [45, 'mm:ss'],
  [46, '[h]:mm:ss'],
  [47, 'mmss.0'],
  [48, '##0.0E+0'],
  [49, '@'],
]);

/**
 * "#rrggbb" of a colour element, given how its attributes are read; undefined where the element names no colour.
 * Colours by number (the old palette) are left out: 64 and 65 of them mean the window's own.
 * @param colors the theme's, by `themeColors`
 */
export function colorOf(
  attribute: (name: string) => string | undefined,
  colors: readonly string[],
): string | undefined {
  const rgb = attribute('rgb');
  const theme = attribute('theme');
  const color =
    rgb && /^[0-9a-fA-F]{8}$/.test(rgb) ? `#${rgb.slice(2).toLowerCase()}` : theme ? colors[Number(theme)] : undefined;
  return color && tinted(color, Number(attribute('tint') ?? 0));
}

/** Colours of the theme in the order in which styles count them. Source: ECMA-376 part 1, 18.8.3 and 20.1.6.2. */
export function themeColors(theme: string): string[] {
  const byName = new Map<string, string>();
  const scanner = new XmlScanner(theme);
  let current = '';
  for (let token = scanner.next(); token !== 'end'; token = scanner.next()) {
    if (token === 'close' && scanner.name === 'clrScheme') break;
    if (token === 'close' || token === 'text') continue;
    if (/^(dk|lt)[12]$|^accent[1-6]$|^hlink$|^folHlink$/.test(scanner.name)) current = scanner.name;
    else if (scanner.name === 'srgbClr' || scanner.name === 'sysClr') {
      const color = scanner.attribute(scanner.name === 'srgbClr' ? 'val' : 'lastClr');
      byName.set(current, `#${color?.toLowerCase() ?? '000000'}`);
    }
  }
  return [
    'lt1',
    'dk1',
    'lt2',
    'dk2',
    'accent1',
    'accent2',
    'accent3',
    'accent4',
    'accent5',
    'accent6',
    'hlink',
    'folHlink',
  ].map((name) => byName.get(name) ?? '#000000');
}

/** A colour made lighter (tint above 0) or darker; done on each of red, green and blue, near enough to the standard's lightness. */
function tinted(color: string, tint: number): string {
  if (!tint || !Number.isFinite(tint)) return color;
  const part = (at: number): string => {
    const value = Number.parseInt(color.slice(at, at + 2), 16);
    const changed = tint < 0 ? value * (1 + tint) : value + (255 - value) * tint;
    return Math.round(Math.min(255, Math.max(0, changed)))
      .toString(16)
      .padStart(2, '0');
  };
  return `#${part(1)}${part(3)}${part(5)}`;
}

interface Look {
  bold?: boolean;
  italic?: boolean;
  size?: number;
  color?: string;
  fill?: string;
  borderBottom?: boolean;
}

/** One style a cell format (cellXfs), in the file's order. `theme` is the theme part's text. */
// eslint-disable-next-line complexity -- one kind of element after the other
export function readStyles(xml: string, theme: string | undefined): StyleModel[] {
  const colors = theme === undefined ? [] : themeColors(theme);
  const formats = new Map(BUILT_IN_FORMATS);
  const looks: Record<'font' | 'fill' | 'border', Look[]> = { font: [], fill: [], border: [] };
  const styles: StyleModel[] = [];
  const scanner = new XmlScanner(xml);
  const path: string[] = [];
  for (let token = scanner.next(); token !== 'end'; token = scanner.next()) {
    if (token === 'close') path.pop();
    if (token !== 'open' && token !== 'empty') continue;
    const { name } = scanner;
    const parent = path.at(-1);
    if (name === 'numFmt' && parent === 'numFmts')
      formats.set(Number(scanner.attribute('numFmtId')), scanner.attribute('formatCode') ?? '');
    else if ((name === 'font' || name === 'fill' || name === 'border') && parent === `${name}s`) looks[name].push({});
    else if (name === 'xf' && parent === 'cellXfs') styles.push(readXf(scanner, formats, looks));
    else if (name === 'alignment' && parent === 'xf' && path.at(-2) === 'cellXfs')
      styles.push({ ...styles.pop(), ...readAlignment(scanner) });
    else if (path[1] === 'fonts') readFont(scanner, looks.font.at(-1)!, colors);
    else if (path[1] === 'fills' && name === 'fgColor') setColor(looks.fill.at(-1)!, 'fill', scanner, colors);
    else if (path[1] === 'borders' && name === 'bottom' && (scanner.attribute('style') ?? 'none') !== 'none')
      looks.border.at(-1)!.borderBottom = true;
    if (token === 'open') path.push(name);
  }
  return styles;
}

function readXf(
  scanner: XmlScanner,
  formats: ReadonlyMap<number, string>,
  looks: Record<'font' | 'fill' | 'border', Look[]>,
): StyleModel {
  const format = formats.get(Number(scanner.attribute('numFmtId') ?? 0));
  const [font, fill, border] = (['font', 'fill', 'border'] as const).map(
    (kind) => looks[kind][Number(scanner.attribute(`${kind}Id`) ?? 0)] ?? {},
  );
  const { size, ...rest } = { ...font, ...fill, ...border };
  const ownSize = size !== looks.font[0]?.size;
  return {
    ...(format && !/^general$/i.test(format) ? { numberFormat: format } : {}),
    ...rest,
    ...(ownSize && size ? { size } : {}),
  };
}

function readAlignment(scanner: XmlScanner): StyleModel {
  const align = scanner.attribute('horizontal');
  const wrap = isTrue(scanner.attribute('wrapText'));
  return {
    ...(align === 'left' || align === 'center' || align === 'right' ? { align } : {}),
    ...(wrap ? { wrap } : {}),
  };
}

function readFont(scanner: XmlScanner, look: Look, colors: readonly string[]): void {
  const on = isTrue(scanner.attribute('val') ?? '1');
  if (scanner.name === 'b' && on) look.bold = true;
  else if (scanner.name === 'i' && on) look.italic = true;
  else if (scanner.name === 'sz') look.size = Number(scanner.attribute('val'));
  else if (scanner.name === 'color') setColor(look, 'color', scanner, colors);
}

function setColor(look: Look, key: 'color' | 'fill', scanner: XmlScanner, colors: readonly string[]): void {
  const color = colorOf((name) => scanner.attribute(name), colors);
  // The theme's black is the default colour of text, not a colour that somebody chose.
  if (color && !(key === 'color' && scanner.attribute('theme') === '1')) look[key] = color;
}
