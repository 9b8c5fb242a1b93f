/** Colours as a file says them: by their parts, or by their place in the theme, made lighter or darker. */
import { XmlScanner } from './xml';

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
    if (token !== 'open' && token !== 'empty') continue;
    if (/^(dk|lt)[12]$|^accent[1-6]$|^hlink$|^folHlink$/.test(scanner.name)) current = scanner.name;
    else if (scanner.name === 'srgbClr') byName.set(current, `#${scanner.attribute('val')?.toLowerCase() ?? '000000'}`);
    else if (scanner.name === 'sysClr')
      byName.set(current, `#${scanner.attribute('lastClr')?.toLowerCase() ?? '000000'}`);
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
