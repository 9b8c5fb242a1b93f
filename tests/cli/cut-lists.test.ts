/** Lists for the cutting plan as spreadsheets save them: other delimiters, other encodings, quotation marks. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { tarebook } from './tarebook';

const folder = mkdtempSync(join(tmpdir(), 'tarebook-cut-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string): string => join(folder, name);

const cut = (parts: string | Uint8Array, stock: string | Uint8Array = 'Name,Length,Cost\nBar,96,12\n') => {
  writeFileSync(at('parts.csv'), parts);
  writeFileSync(at('stock.csv'), stock);
  return tarebook('cut', '--parts', at('parts.csv'), '--stock', at('stock.csv'), '--seconds', '0');
};

describe('lists to cut', () => {
  const LIST = 'Name;Length;Quantity\nTür;10;2\n\n"Strebe ""A"";kurz";5;1\n';
  // RFC 4180 has commas; spreadsheets part fields by semicolons or tabs where the comma is a decimal sign.
  it.each([
    ['UTF-8', new TextEncoder().encode(LIST)],
    ['UTF-8 with a mark', new TextEncoder().encode(`\uFEFF${LIST}`)],
    ['Windows-1252', Buffer.from(LIST, 'latin1')],
    ['UTF-16 with a mark', Buffer.from(`\uFEFF${LIST}`, 'utf16le')],
    ['UTF-16, the high byte first', Buffer.from(`\uFEFF${LIST}`, 'utf16le').swap16()],
    ['tabs', new TextEncoder().encode(LIST.replace('kurz', 'k').replaceAll(';', '\t').replace('"A""\tk', '"A"";k'))],
  ])('are read with their names: %s', async (_name, bytes) => {
    const { code, out } = await cut(bytes);
    expect(code).toBe(0);
    expect(out).toContain('Tür');
    expect(out).toContain('Strebe "A";k');
  });

  it('with a quotation mark that is not closed are refused, and the row is named', async () => {
    const { code, err } = await cut('Name,Length,Quantity\nStiffener,10,2\n"Brace,5,1\n');
    expect(code).toBe(2);
    expect(err).toMatch(/parts\.csv: Row 3 has a quotation mark that is not closed\. Close it and try again\./);
  });
});
