import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { catalogue } from '../../src/functions';
import { readWorkbook, writeWorkbook } from '../../src/xlsx';
import { tarebook } from './tarebook';

const folder = mkdtempSync(join(tmpdir(), 'tarebook-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const fixtures = fileURLToPath(new URL('../xlsx/fixtures/', import.meta.url));

function copy(name: string): string {
  const path = join(folder, `${Math.random().toString(36).slice(2)}.xlsx`);
  copyFileSync(join(fixtures, `${name}.xlsx`), path);
  return path;
}

function copySample(name: string): string {
  const path = join(folder, `${name}.xlsx`);
  copyFileSync(fileURLToPath(new URL(`../../sample-workbooks/${name}.xlsx`, import.meta.url)), path);
  return path;
}

describe('a workbook that another version made', () => {
  it('is told of beside the answer', async () => {
    const told = expect.stringContaining(
      'Made by Tarebook 0.1. Some functions give other numbers since then',
    ) as string;
    const old = join(fixtures, '0.1', 'wing.xlsx');
    expect(await tarebook('eval', '=1+1', '--in', old)).toMatchObject({ code: 0, out: '2\n', err: told });
    expect((await tarebook('eval', '=1+1', '--in', copySample('wing'))).err).toBe('');
  });
});

describe('eval', () => {
  it.each(['=1e400', '=-1E400', '=1e400&"x"', '=SUM({1e400,1})', '=MAX(1,9e999)', `=${'9'.repeat(400)}`])(
    '%s is an error and never Infinity',
    async (formula) => {
      expect(await tarebook('eval', formula)).toMatchObject({
        code: 1,
        out: '',
        err: expect.stringMatching(/^#NUM! /) as string,
      });
    },
  );

  it.each([
    ['=VALUE("1e400")', /^#VALUE!/],
    ['="1e400"+1', /^#VALUE!/],
    ['=TARE.AREA.RECT("1e400",1)', /^#VALUE! length: got "1e400"/],
    ['=TARE.AREA.RECT(1e400,1)', /^#NUM!/],
    ['=TARE.WEIGHT.SHEET(1,.02,"1e400")', /^#(?:VALUE!|N\/A) material: got "1e400"/],
  ])('%s is an error', async (formula, message) => {
    expect(await tarebook('eval', formula)).toMatchObject({
      code: 1,
      out: '',
      err: expect.stringMatching(message) as string,
    });
  });

  it.each([
    ['=1+1', '2'],
    ['1+1', '2'],
    ['=0.1+0.2', '0.3'],
    ['=1/3', '0.333333333333333'],
    ['=1e21*10', '1e+22'],
    ['="a"&TRUE', 'aTRUE'],
    ['=1>2', 'FALSE'],
    ['={1,2;3,"a"}', '1\t2\n3\ta'],
    ['=TARE.AREA.RECT({12;10},4)', '48\n40'],
    ['="a"&CHAR(9)&"b"', 'a\tb'],
    ['={1}&CHAR(10)&{"x","y"}', '1 x\t1 y'],
    ['=TARE.WEIGHT.SHEET(TARE.AREA.RECT(144,48),0.02,0.101)', '13.96224'],
    ['=TARE.FLAT.CHANNEL(2,1,1,0.04,0.16)', '3.758144'],
    ['=TARE.RIVET.COUNT(24,1.25,0.25)', '19'],
    ['=TARE.GAUGE.THICKNESS(20)', '0.032'],
  ])('%s', async (formula, printed) => {
    const { code, out, err } = await tarebook('eval', formula);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    if (/^[\d.]+$/.test(printed)) expect(Number(out)).toBeCloseTo(Number(printed), 6);
    else expect(out).toBe(`${printed}\n`);
  });

  it('gives an error by name and message, and exit code 1', async () => {
    expect(await tarebook('eval', '=TARE.AREA.RECT(-1,4)')).toMatchObject({
      code: 1,
      out: '',
      err: expect.stringMatching(/^#VALUE! length: got -1; takes inches above 0.*\n$/) as string,
    });
  });

  it('prints a column with an error in it, and names the error', async () => {
    const { code, out, err } = await tarebook('eval', '=TARE.AREA.RECT({1;-1},2)');
    expect({ code, out }).toEqual({ code: 1, out: '2\n#VALUE!\n' });
    expect(err).toMatch(/^row 2, column 1: #VALUE! length/);
  });

  it.each([
    ['=TARE.AREA.RECT(2,3)', { value: 6, dimension: 'area', unit: 'in²' }],
    ['=TARE.AREA.RECT({2;4},3,"mm-kg")', { value: [[6], [12]], dimension: 'area', unit: 'mm²' }],
    ['=TARE.AREA.RECT({2;-4},3)', { value: [[6], [{ error: { code: '#VALUE!' } }]] }],
    ['=TARE.RIVET.COUNT(24,1.25,0.25)', { value: 19 }],
    ['=0.1+0.2', { value: 0.3 }],
    ['=1>2', { value: false }],
    ['=SUMM(1)', { error: { code: '#NAME?', message: 'There is no function SUMM. Did you mean SUM?' } }],
  ])('prints JSON: %s', async (formula, expected) => {
    const { code, out, err } = await tarebook('eval', formula, '--json');
    const isWrong = JSON.stringify(expected).includes('error');
    expect({ code, err: err.trim() }).toEqual({ code: isWrong ? 1 : 0, err: '' });
    expect(JSON.parse(out)).toMatchObject({ formula, ...expected });
  });

  it.each([
    ['=TARE.AREA.RECTT(1,2)', 'There is no function TARE.AREA.RECTT. Did you mean TARE.AREA.RECT?'],
    ['=TARE_AREA_RECT(1,2)', 'Did you mean TARE.AREA.RECT?'],
    ['=AREA.RECT(1,2)', 'Did you mean TARE.AREA.RECT?'],
    ['=AREA.RECTANGEL(1,2)', 'There is no function AREA.RECTANGEL. Did you mean TARE.AREA.RECT?'],
    ['=VLOKUP(1,{1,2},2)', 'Did you mean VLOOKUP'],
    ['=FOREIGN.THING(1)', 'There is no function FOREIGN.THING\n'],
    ['=Nowhere!A1', '#REF! There is no sheet "Nowhere"'],
    ['=INDEX({1,2},5)', '#REF! INDEX: row 1, column 5; there are 1 rows and 2 columns'],
    ['=VLOOKUP(1,{1,2},3)', '#REF! VLOOKUP: column 3 is not in the table'],
    ['=INDIRECT("nothing here")', '#REF! INDIRECT: "nothing here" is not a reference'],
    ['=1+#REF!', '#REF! The formula names cells that were deleted'],
  ])('says of %s what is wrong', async (formula, message) => {
    const { code, err } = await tarebook('eval', formula);
    expect(code).toBe(1);
    expect(err).toContain(message);
  });

  it('says that cells are blank without a workbook', async () => {
    expect(await tarebook('eval', '=SUM(B2:B9)')).toEqual({
      code: 0,
      out: '0\n',
      err: 'No workbook is given, so that its cells are blank. Name one with --in FILE.\n',
    });
  });

  it('sees a workbook', async () => {
    expect(await tarebook('eval', '=SUM(Lengths)', '--in', copy('xlsxwriter'))).toMatchObject({
      code: 0,
      out: '53.5\n',
    });
  });

  it('is a wrong command line without a formula', async () => {
    expect(await tarebook('eval')).toMatchObject({
      code: 2,
      out: '',
      err: expect.stringContaining("missing required argument 'formula'") as string,
    });
  });
});

describe('recalc', () => {
  it('puts values back and says how many', async () => {
    const path = copy('openpyxl');
    expect(await tarebook('recalc', path)).toMatchObject({
      code: 0,
      err: '',
      out: `${path}: 13 cells changed\n4 formulas with TARE functions given the form that Excel binds\n`,
    });
    expect(readWorkbook(readFileSync(path)).sheets[0]!.cells[5]![3]!.value).toBe(49.625);
    expect(await tarebook('recalc', path)).toMatchObject({ code: 0, out: `${path}: every value was up to date\n` });
  });

  it('leaves the file alone with an output, and writes nothing when dry', async () => {
    const path = copy('openpyxl');
    const before = readFileSync(path);
    expect((await tarebook('recalc', path, '--dry-run')).out).toContain('13 cells would change');
    const other = join(folder, 'other.xlsx');
    expect((await tarebook('recalc', path, '-o', other)).code).toBe(0);
    expect(readFileSync(path).equals(before)).toBe(true);
    expect(readWorkbook(readFileSync(other)).sheets[0]!.cells[5]![3]!.value).toBe(49.625);
  });

  it('does not touch a file that is up to date', async () => {
    const path = copy('xlsxwriter');
    const before = readFileSync(path);
    await tarebook('recalc', path);
    expect(readFileSync(path).equals(before)).toBe(true);
  });

  it('lists cells in error and formulas that it kept, and writes all the same', { timeout: 120_000 }, async () => {
    const path = join(folder, 'wrong.xlsx');
    const cells = [
      [
        { value: 0, formula: 'TARE.AREA.RECT(-2,1)' },
        { value: 5, formula: 'FOREIGN(1)' },
        { value: 0, formula: '1/0' },
        { value: 0, formula: 'B1*2' },
      ],
    ];
    writeFileSync(
      path,
      await writeWorkbook({ styles: [], names: [], sheets: [{ name: 'My parts', cells, tables: [] }] }),
    );
    const { code, err } = await tarebook('recalc', path);
    expect(code).toBe(1);
    expect(err.split('\n')).toEqual([
      "FOREIGN is not known here: 'My parts'!B1 keeps the file's value",
      'Not recalculated: 1 formula rests on kept values:',
      "'My parts'!D1 rests on 'My parts'!B1",
      '2 cells in error:',
      expect.stringMatching(/^'My parts'!A1: #VALUE! length: got -2/),
      "'My parts'!C1: #DIV/0! =1/0",
      '',
    ]);
    expect(readWorkbook(readFileSync(path)).sheets[0]!.cells[0]![3]!.value).toBe(10);
  });

  it.each<[string, () => string, RegExp]>([
    ['missing', () => join(folder, 'nothing.xlsx'), /nothing\.xlsx does not exist$/],
    ['a folder', () => folder, /is a folder, not a workbook$/],
    ['no workbook', () => fileURLToPath(import.meta.url), /is no \.xlsx workbook$/],
    ['in a folder that is none', () => join(fixtures, 'make.py', 'x.xlsx'), /does not exist$/],
  ])('refuses a file that is %s with one line', async (_what, path, message) => {
    const { code, out, err } = await tarebook('recalc', path());
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err.trimEnd()).toMatch(message);
    expect(err.trimEnd()).not.toContain('\n');
  });

  it('refuses a file cut short', async () => {
    const path = join(folder, 'cut.xlsx');
    writeFileSync(path, readFileSync(copy('openpyxl')).subarray(0, 5000));
    expect(await tarebook('recalc', path)).toMatchObject({
      code: 2,
      err: `${path}: The file is cut short or damaged: its list of parts does not match its content. Take another copy of the file.\n`,
    });
  });

  it.each(['~$%s', '.~lock.%s#'])('refuses to write a file that another program has open (%s)', async (lock) => {
    const path = copy('openpyxl');
    const before = readFileSync(path);
    const name = path.slice(folder.length + 1);
    writeFileSync(join(folder, lock.replace('%s', name)), '');
    const { code, err } = await tarebook('recalc', path);
    expect(code).toBe(2);
    expect(err).toContain('another program has it open');
    expect(readFileSync(path).equals(before)).toBe(true);
    expect((await tarebook('recalc', path, '-o', join(folder, 'elsewhere.xlsx'))).code).toBe(0);
  });

  it('leaves no temporary files', () => {
    expect(readdirSync(folder).filter((name) => name.endsWith('.tmp'))).toEqual([]);
  });

  it('refuses an output in a folder that does not exist', async () => {
    expect(await tarebook('recalc', copy('openpyxl'), '-o', join(folder, 'no', 'out.xlsx'))).toMatchObject({
      code: 2,
      err: expect.stringContaining('does not exist') as string,
    });
  });

  it('refuses an output that is a folder', async () => {
    mkdirSync(join(folder, 'taken.xlsx'));
    expect(await tarebook('recalc', copy('openpyxl'), '-o', join(folder, 'taken.xlsx'))).toMatchObject({
      code: 2,
      err: expect.stringContaining('is a folder') as string,
    });
  });
});

describe('values', () => {
  it('writes a copy whose TARE formulas are fresh values, and leaves the workbook', async () => {
    const path = copy('openpyxl');
    const before = readFileSync(path);
    const other = join(folder, 'values.xlsx');
    expect(await tarebook('values', path, '-o', other)).toEqual({
      code: 0,
      err: '',
      out: `${other}: 4 TARE formulas are values\n`,
    });
    expect(readFileSync(path).equals(before)).toBe(true);
    const { value, formula } = readWorkbook(readFileSync(other)).sheets[0]!.cells[5]![3]!;
    expect({ value, formula }).toEqual({ value: 49.625, formula: 'SUM(D2:D5)' });
  });

  it('wants a place for the copy', async () => {
    expect(await tarebook('values', copy('openpyxl'))).toMatchObject({
      code: 2,
      err: expect.stringContaining("required option '-o, --output <file>'") as string,
    });
  });
});

describe('functions', () => {
  it('lists every function with its signature', async () => {
    const { out } = await tarebook('functions');
    for (const { name } of catalogue) expect(out).toContain(`  TARE.${name}(`);
  });

  it('explains one, by either name', async () => {
    const { out } = await tarebook('functions', 'area.rect');
    expect(out).toBe((await tarebook('functions', 'TARE.AREA.RECT')).out);
    expect(out).toContain('length: length; takes inches above 0');
  });

  it('prints JSON', async () => {
    const all = JSON.parse((await tarebook('functions', '--json')).out) as {
      name: string;
      parameters: { name: string }[];
      source: string;
    }[];
    expect(all).toHaveLength(catalogue.length);
    expect(all[0]).toMatchObject({
      name: 'TARE.AREA.RECT',
      signature: 'TARE.AREA.RECT(length, width, [units])',
      source: 'definition',
    });
    for (const { source } of all) expect(source).not.toBe('');
  });

  it('searches names and summaries', async () => {
    const { code, out } = await tarebook('functions', 'hinge');
    expect(code).toBe(0);
    expect(out).toContain('TARE.HINGE.');
    expect(out).not.toContain('TARE.AREA.RECT');
    expect((await tarebook('functions', 'stem', 'breaks')).out).toContain('  TARE.RIVET.');
    const both = (await tarebook('functions', 'rivet', 'weight')).out;
    expect(both).toContain('  TARE.RIVET.WEIGHT(');
    expect(both.split('\n').length).toBeLessThan((await tarebook('functions', 'rivet')).out.split('\n').length);
  });

  it('names the one that was meant', async () => {
    expect((await tarebook('functions', 'RIVET.WIEGHT')).err).toContain('Did you mean TARE.RIVET.WEIGHT?');
  });

  it('does not know others', async () => {
    expect(await tarebook('functions', 'AREA.NOTHING')).toMatchObject({
      code: 2,
      err: expect.stringContaining('No function is named AREA.NOTHING') as string,
    });
  });
});

describe('report', () => {
  it('refuses a workbook without a parts list', async () => {
    const path = join(folder, 'plain.xlsx');
    writeFileSync(
      path,
      await writeWorkbook({ styles: [], names: [], sheets: [{ name: 'A', cells: [[{ value: 1 }]], tables: [] }] }),
    );
    expect(await tarebook('report', path)).toMatchObject({
      code: 2,
      err: expect.stringContaining('has no parts list') as string,
    });
  });

  it('says what it can do with a workbook that has an airplane and no parts list', async () => {
    const path = copySample('weighing');
    const { code, err, out } = await tarebook('report', path);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    const named = /tarebook report (\S+) --html (\S+) writes that as a page\.\n$/.exec(err);
    expect(named).not.toBeNull();
    const page = join(folder, named![2]!);
    expect(await tarebook('report', join(folder, named![1]!), '--html', page)).toMatchObject({ code: 0, err: '' });
    expect(readFileSync(page, 'utf8')).toContain('<html');
  });

  it('prints the sample wing as a table and as JSON', async () => {
    const wing = fileURLToPath(new URL('../../sample-workbooks/wing.xlsx', import.meta.url));
    const { code, out } = await tarebook('report', wing);
    expect(code).toBe(0);
    expect(out).toMatch(/^Total +[\d,]+ +[\d,]+ +[\d.]+/m);
    const json = JSON.parse((await tarebook('report', wing, '--json')).out) as {
      total: { weight: number; arm: number; moment: number };
      components: { weight: number }[];
    };
    expect(json.components.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(json.total.weight, 9);
    expect(json.total.weight * json.total.arm).toBeCloseTo(json.total.moment, 6);
  });
});

describe('help', () => {
  it.each(
    [[], ['eval'], ['recalc'], ['values'], ['report'], ['functions'], ['cut'], ['serve']].map((command) => [command]),
  )('%s', async (command) => {
    const { code, out } = await tarebook(...command, '--help');
    expect(code).toBe(0);
    expect(out).toContain('Usage: tarebook');
  });

  it('is shown for an unknown command', async () => {
    expect(await tarebook('fly')).toMatchObject({
      code: 2,
      err: expect.stringContaining("unknown command 'fly'") as string,
    });
  });
});
