import { expect, it } from 'vitest';
import { onThemeLook, themeFor } from '../../../src/hosts/excel/theme';

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

it.each(['focus', 'pointerenter'])('is looked at again when the person comes to the pane: %s', (event) => {
  const [page, forcedColors] = [new EventTarget(), new EventTarget()];
  let looks = 0;
  onThemeLook(page, forcedColors, () => looks++);
  page.dispatchEvent(new Event(event));
  forcedColors.dispatchEvent(new Event('change'));
  expect(looks).toBe(2);
});
