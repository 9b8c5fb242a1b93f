/** The pane's colours: neutral, with a blue-green accent; the host says light, dark or high contrast. */
import {
  createDarkTheme,
  createLightTheme,
  teamsHighContrastTheme,
  type BrandVariants,
  type Theme,
} from '@fluentui/react-components';

export type ThemeName = 'light' | 'dark' | 'contrast';

/** Shades of the accent from dark to light; the eighth is the accent itself. */
export const ACCENT: BrandVariants = {
  10: '#021517',
  20: '#07252a',
  30: '#0a3139',
  40: '#0b3e48',
  50: '#0c4b57',
  60: '#0d5865',
  70: '#0e6574',
  80: '#107284',
  90: '#2a8294',
  100: '#4693a3',
  110: '#61a4b2',
  120: '#7cb5c1',
  130: '#97c6cf',
  140: '#b3d6dd',
  150: '#cfe7eb',
  160: '#e9f5f7',
};

const dark = createDarkTheme(ACCENT);

const THEMES: Readonly<Record<ThemeName, Theme>> = {
  light: createLightTheme(ACCENT),
  // The lighter steps of the accent, for text and lines on a dark ground.
  dark: {
    ...dark,
    colorBrandForeground1: ACCENT[120],
    colorBrandForeground2: ACCENT[130],
    colorBrandForegroundLink: ACCENT[120],
    colorBrandStroke1: ACCENT[110],
  },
  contrast: teamsHighContrastTheme,
};

export const themeOf = (name: ThemeName): Theme => THEMES[name];
