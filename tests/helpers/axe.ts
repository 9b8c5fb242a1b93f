/** What axe-core finds on a page in a real browser, against WCAG 2.2 AA and its own best practices. */
import axe from 'axe-core';
import type { Page } from 'playwright-core';

interface Violation {
  readonly id: string;
  readonly help: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
}

const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
/** The rules on which a theme bears. */
const COLOURS = { type: 'rule', values: ['color-contrast', 'link-in-text-block'] };

/** Colours of a theme just set are on their way, and a text half way is neither the old one nor the new: two frames start what is to move, then it ends. */
const settle = (page: Page): Promise<void> =>
  page.evaluate(async () => {
    const frame = (): Promise<unknown> => new Promise((done) => requestAnimationFrame(done));
    await frame();
    await frame();
    // One that goes on for ever, as a waiting sign's, is not waited for; one that is called off rejects.
    const ending = document
      .getAnimations()
      .filter((animation) => animation.effect?.getComputedTiming().endTime !== Infinity);
    await Promise.allSettled(ending.map((animation) => animation.finished));
    await frame();
  });

interface AxeOptions {
  /** Parts of the page that are not looked at. */
  readonly without?: readonly string[];
  /** Just what a theme bears on: for a page of which the rest has been looked at in another. */
  readonly coloursOnly?: boolean;
}

/** One line a finding. */
export async function axeFindings(
  page: Page,
  { without = [], coloursOnly = false }: AxeOptions = {},
): Promise<string[]> {
  await settle(page);
  // In through the browser's own door: a page's policy keeps scripts of others out.
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source);
  const violations = await page.evaluate(
    async ([exclude, runOnly]) => {
      const runner = (
        window as unknown as { axe: { run(context: object, options: object): Promise<{ violations: Violation[] }> } }
      ).axe;
      return (await runner.run(exclude.length > 0 ? { exclude: exclude.map((one) => [one]) } : document, { runOnly }))
        .violations;
    },
    [[...without], coloursOnly ? COLOURS : RULES] as const,
  );
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${help}: ${html.slice(0, 200)} ${failureSummary}`),
  );
}
