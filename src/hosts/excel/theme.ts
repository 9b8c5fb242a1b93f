import type { ThemeName } from '../../pane';

/** The pane's theme for the colours that Office shows: light or dark by the ground, contrast where the system asks for it. */
export function themeFor(bodyBackground: string | undefined, forcedColors: boolean): ThemeName {
  if (forcedColors) return 'contrast';
  return bodyBackground !== undefined && lightness(bodyBackground) < 0.4 ? 'dark' : 'light';
}

/**
 * Calls back when the theme may be another one: Excel tells nobody of a changed theme, so that it is looked at when
 * the person comes to the pane.
 */
export function onThemeLook(page: EventTarget, forcedColors: EventTarget, look: () => void): void {
  forcedColors.addEventListener('change', look);
  page.addEventListener('focus', look);
  page.addEventListener('pointerenter', look);
}

/** How light "#rrggbb" looks, 0 to 1; 1 for what is no such colour. Weights of ITU-R BT.601. */
function lightness(color: string): number {
  const parts = /^#?([\da-f]{2})([\da-f]{2})([\da-f]{2})$/i.exec(color);
  if (!parts) return 1;
  const [red, green, blue] = parts.slice(1).map((part) => Number.parseInt(part, 16)) as [number, number, number];
  return (0.299 * red + 0.587 * green + 0.114 * blue) / 255;
}
