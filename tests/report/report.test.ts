import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { reportPage } from '../../src/cli/report-html';
import { CellError, type Cell } from '../../src/sheet';
import { JOINTS, PARTS, type ProjectSheets } from '../../src/project';
import { reportHtml } from '../../src/report';
import { type WorkbookModel } from '../../src/sheet';
import { readWorkbook } from '../../src/xlsx';
import { projectWith, sheet, valuesOf } from '../project/sheets';

const open = (name: string): WorkbookModel =>
  readWorkbook(new Uint8Array(readFileSync(new URL(`../../sample-workbooks/${name}`, import.meta.url))));
const headings = (html: string): string[] => [...html.matchAll(/<h2>(.*?)<\/h2>/g)].map(([, words]) => words!);
const projectOf = (sheets: Record<string, Cell[][]>): ProjectSheets =>
  projectWith(valuesOf(sheets), Object.keys(sheets));

describe('the report', () => {
  it('of the wing has its components, budget, rivets, costs, sources and problems', () => {
    const html = reportPage('wing', open('wing.xlsx'), '2026-11-20')!;
    expect(headings(html)).toEqual([
      'Components',
      'Against the design weight',
      'Parts on the scale',
      'Heaviest parts',
      'Rivets',
      'Hardware',
      'Material by cost',
      'Sources',
      'Problems found',
    ]);
    expect(html).toContain('MS20470AD3-3');
    // The screws of the tip are weighed from their standard's dimensions, the bolts by what the sheet says.
    expect(html).toContain('computed from the dimensions of its standard');
    expect(html).toContain('Hardware, from its sheet');
    expect(html).toContain('<span class="unit">USD</span>');
    expect(html).toMatch(/FLAT\.CHANNEL/);
  });

  it('of the budget has the log, and of the airplanes their weighings and loadings', () => {
    expect(headings(reportPage('budget', open('budget.xlsx'), '2026-11-20')!)).toContain('Weight over time');
    const html = reportPage('weighing', open('weighing.xlsx'), '2026-11-20')!;
    expect(headings(html).filter((words) => /Weighing|Loading/.test(words))).toEqual([
      'Weighing record: Corncrake, invented two-seater',
      'Loading: Corncrake, invented two-seater',
      'Weighing record: Whinchat, invented tandem two-seater',
      'Loading: Whinchat, invented tandem two-seater',
    ]);
    expect(html).toContain('outside: 97.8 lb over the highest weight, 1,320.0 lb');
  });

  it('says each caution once', () => {
    for (const name of ['wing.xlsx', 'weighing.xlsx']) {
      const html = reportPage(name, open(name), '2026-11-20')!;
      expect(html.match(/class="caution"/g)).toHaveLength(1);
      expect(html.match(/an estimate is not a weighing/gi)).toHaveLength(1);
    }
    expect(reportPage('weighing', open('weighing.xlsx'), '2026-11-20')).toContain(
      'Limits come from the aircraft’s own documents',
    );
  });

  it('needs nothing from outside and runs nothing', () => {
    for (const name of ['rib.xlsx', 'wing.xlsx', 'budget.xlsx', 'weighing.xlsx']) {
      const html = reportPage(name, open(name), '2026-11-20')!;
      expect(html).not.toMatch(/<script|\son\w+=|<link|<img|@import|url\(/i);
      expect(
        [...html.matchAll(/\b(?:https?:)?\/\/[^"' >]+/g)]
          .map(([url]) => url)
          .filter((url) => url !== 'http://www.w3.org/2000/svg'),
      ).toEqual([]);
      expect(html).not.toMatch(/NaN|Infinity|undefined|\[object/);
      expect(html).toContain('@page');
    }
  });

  it('is undefined where there is nothing to report', () => {
    expect(reportHtml({ title: 'x', date: '2026-11-20', sheets: projectOf({ Notes: [['nothing']] }) })).toBeUndefined();
  });

  it('makes what stands in cells safe, and lists what is wrong and what the checks found', () => {
    const sheets = projectOf({
      Parts: sheet(PARTS, [
        { component: '<script>alert(1)</script>', part: 'a "b" & \'c\'', weight: 2, arm: 3 },
        { component: 'x', part: 'y', weight: new CellError('#VALUE!', 'thickness: got 20') },
      ]),
      Joints: sheet(JOINTS, [
        {
          joint: 'j',
          component: 'x',
          rivet: 'MS20470AD4-6',
          count: 10,
          weight: 0.006,
          check: 'pitch 0.2 in is under 3 × diameter',
        },
        { joint: 'k', component: 'x', rivet: 'MS20470AD3-4', count: 5, weight: 0.002, check: 'ok' },
      ]),
    });
    const html = reportHtml({ title: 'A & <B>', date: '2026-11-20', sheets })!;
    expect(html).not.toContain('<script');
    expect(html).toContain('<h1>A &amp; &lt;B&gt;</h1>');
    expect(html).toContain('Parts!M4 is #VALUE! and is left out of the sum: thickness: got 20');
    expect(html).toContain('pitch 0.2 in is under 3 × diameter');
    // By diameter: 3/32 before 1/8.
    expect(html.indexOf('MS20470AD3-4')).toBeLessThan(html.indexOf('MS20470AD4-6'));
  });

  it('names each source once, with the functions that rest on it', () => {
    const html = reportHtml({
      title: 't',
      date: '2026-11-20',
      sheets: projectOf({ Parts: sheet(PARTS, [{ component: 'a', part: 'b', weight: 1 }]) }),
      formulas: ['TARE.A.B(1)+tare.c(2)', 'SUM(A1)', 'TARE.A.B(3)', 'TARE.D.E(1)'],
      sourceOf: (name) => ({ 'A.B': 'Handbook 1', C: 'Handbook 1', 'D.E': 'definition' })[name],
    })!;
    expect(html).toContain('<li>Handbook 1: A.B, C</li>');
    expect(html).toContain('<li>Definitions of geometry and arithmetic: D.E</li>');
  });
});
