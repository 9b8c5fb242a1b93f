/** Where the pages have Office.js from, and whether their own rules let them. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

/** A script without types: by a name that the compiler does not follow. */
const TOOL: string = '../../../tools/webpack/office.mjs';
interface Pages {
  readonly script: string;
  readonly runtime: string;
  readonly panePolicy: string;
  readonly functionsPolicy: string;
}
const { officePages } = (await import(TOOL)) as { officePages(office: 'local' | 'cdn'): Pages };

const scriptSources = (policy: string): string[] => /script-src ([^;]*)/.exec(policy)![1]!.split(' ');

describe('Office.js', () => {
  it('comes from our own folder, and the rules name nobody else', () => {
    const local = officePages('local');
    expect([local.script, local.runtime].join(' ')).not.toContain('://');
    expect([local.panePolicy, local.functionsPolicy].join(' ')).not.toContain('://');
    expect(local.panePolicy).toContain("frame-src 'none'");
  });

  it('comes from Microsoft in the form for its marketplace, whose rules allow just that', () => {
    const cdn = officePages('cdn');
    for (const [address, policy] of [
      [cdn.script, cdn.panePolicy],
      [cdn.runtime, cdn.functionsPolicy],
    ] as const) {
      expect(address).toMatch(/^https:\/\/appsforoffice\.microsoft\.com\/lib\/1\/hosted\//);
      expect(scriptSources(policy)).toContain(new URL(address).origin);
      expect(scriptSources(policy)).not.toContain('*');
    }
  });

  it.each(['pane', 'functions'])('and the rules are put into the page of the %s', (page) => {
    const html = readFileSync(new URL(`../../../src/hosts/excel/${page}.html`, import.meta.url), 'utf8');
    expect(html).toContain(`options.office.${page}Policy`);
    expect(html).toMatch(/src="<%= htmlWebpackPlugin\.options\.office\.(script|runtime) %>"/);
  });
});
