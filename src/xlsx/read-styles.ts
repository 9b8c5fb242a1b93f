/** Cell styles of a workbook: index of a cell's style → the looks that the model carries. */
import type { StyleModel } from '../sheet';
import { colorOf, themeColors } from './colors';
import { BUILT_IN_FORMATS } from './number-formats';
import { XmlScanner } from './xml';

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

const isTrue = (text: string | undefined): boolean => text === '1' || text === 'true';

function setColor(look: Look, key: 'color' | 'fill', scanner: XmlScanner, colors: readonly string[]): void {
  const color = colorOf((name) => scanner.attribute(name), colors);
  // The theme's black is the default colour of text, not a colour that somebody chose.
  if (color && !(key === 'color' && scanner.attribute('theme') === '1')) look[key] = color;
}
