import { expect, it } from 'vitest';
import { themeFor } from '../../../src/hosts/excel/theme';

it.each([
  ['#ffffff', false, 'light'],
  ['#f0f0f0', false, 'light'],
  ['#262626', false, 'dark'],
  ['0a0a0a', false, 'dark'],
  [undefined, false, 'light'],
  ['a colour', false, 'light'],
  ['#ffffff', true, 'contrast'],
])('a ground of %s (forced colours: %s) is %s', (ground, forced, theme) =>
  expect(themeFor(ground, forced)).toBe(theme),
);
