/** The long parts lists as files, and the two programs that recalculate them. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync, existsSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { nodeCodec } from '../../src/hosts/node/files';
import { readWorkbook, writeWorkbook } from '../../src/xlsx';
import { recalculatingProfile } from '../../tests/helpers/libreoffice';
import { bigList, TOTAL_ROW, type ListForm } from './big-list';
import { runProgram, type Run } from './process';

export class Workbooks {
  private readonly folder = mkdtempSync(join(tmpdir(), 'tarebook-bench-'));
  private office: { readonly soffice: string; readonly profile: string } | undefined;

  /** Path of a list's file, made when it is first asked for. */
  async path(rows: number, form: ListForm): Promise<string> {
    const path = join(this.folder, `${form}-${rows}.xlsx`);
    if (!existsSync(path)) writeFileSync(path, await writeWorkbook(bigList(rows, form)));
    return path;
  }

  /** `tarebook recalc`, the whole process; the workbook stays as it is. */
  async ours(rows: number, form: 'columns' | 'cells'): Promise<Run> {
    const output = this.output('ours', rows);
    return runProgram(process.execPath, ['dist/cli/tarebook.mjs', 'recalc', await this.path(rows, form), '-o', output]);
  }

  /** LibreOffice without a screen on the plain form, the whole process. Its first start, which makes a profile, is not counted. */
  async libreOffice(soffice: string, rows: number): Promise<Run> {
    if (!this.office) {
      this.office = { soffice, profile: recalculatingProfile(this.folder) };
      this.convert(await this.path(100, 'plain'));
    }
    return this.convert(await this.path(rows, 'plain'));
  }

  /** Total weight and moment that the last run found: the two programs have to agree, or the times mean nothing. */
  totals(who: 'ours' | 'theirs', rows: number): readonly [weight: number, moment: number] {
    const path = who === 'ours' ? this.output('ours', rows) : join(this.folder, 'theirs', `plain-${rows}.xlsx`);
    const total = readWorkbook(readFileSync(path), nodeCodec).sheets.find(({ name }) => name === 'Weights')!.cells[
      TOTAL_ROW
    ]!;
    return [Number(total[1]?.value), Number(total[3]?.value)];
  }

  remove(): void {
    rmSync(this.folder, { recursive: true, force: true });
  }

  private output(who: string, rows: number): string {
    mkdirSync(join(this.folder, who), { recursive: true });
    return join(this.folder, who, `${rows}.xlsx`);
  }

  private convert(path: string): Run {
    const { soffice, profile } = this.office!;
    return runProgram(soffice, [
      profile,
      '--headless',
      '--convert-to',
      'xlsx:Calc MS Excel 2007 XML',
      '--outdir',
      join(this.folder, 'theirs'),
      path,
    ]);
  }
}
