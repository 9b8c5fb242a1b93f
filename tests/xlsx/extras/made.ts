/** Invented workbooks with what stands beside cells, by libraries of others. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';

/** A workbook that `make.py` writes; nothing where there is no Python, and the tests are skipped. */
export function made(python: string | undefined, what: string): Uint8Array {
  if (python === undefined) return new Uint8Array();
  const folder = mkdtempSync(join(tmpdir(), 'tarebook-extras-'));
  try {
    const file = join(folder, 'made.xlsx');
    const done = spawnSync(python, [fileURLToPath(new URL('make.py', import.meta.url)), what, file], {
      encoding: 'utf8',
      timeout: 100_000,
    });
    if (done.status !== 0) throw new Error(done.stderr || done.stdout);
    return new Uint8Array(readFileSync(file));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A file with parts put in or changed, and the others as they were. */
function withParts(bytes: Uint8Array, change: (parts: Record<string, string>) => void): Uint8Array {
  const parts = unzipSync(bytes);
  const texts = Object.fromEntries(Object.entries(parts).map(([name, part]) => [name, strFromU8(part)]));
  const before = { ...texts };
  change(texts);
  for (const [name, text] of Object.entries(texts)) if (before[name] !== text) parts[name] = strToU8(text);
  return zipSync(parts);
}

const RELATED = 'http://schemas.microsoft.com/office/2017/10/relationships';
const THREADS = 'http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments';

/** The file with a thread of two comments over the note of a cell of its first sheet. Form: [MS-XLSX] 2.6.201 to 2.6.208. */
export function withThread(bytes: Uint8Array, ref: string): Uint8Array {
  if (bytes.length === 0) return bytes;
  return withParts(bytes, (parts) => {
    const sheet = 'xl/worksheets/_rels/sheet1.xml.rels';
    parts['xl/threadedComments/threadedComment1.xml'] =
      `<ThreadedComments xmlns="${THREADS}"><threadedComment ref="${ref}" dT="2026-03-01T10:00:00.00" personId="{1}" id="{A}"><text>Is this drilled?</text></threadedComment>` +
      `<threadedComment ref="${ref}" dT="2026-03-02T10:00:00.00" personId="{2}" id="{B}" parentId="{A}"><text>Yes, #40</text></threadedComment></ThreadedComments>`;
    parts['xl/persons/person.xml'] =
      `<personList xmlns="${THREADS}"><person displayName="Ann" id="{1}" userId="a" providerId="None"/><person displayName="Ben" id="{2}" userId="b" providerId="None"/></personList>`;
    parts[sheet] = parts[sheet]!.replace(
      '</Relationships>',
      `<Relationship Id="rIdT" Type="${RELATED}/threadedComment" Target="../threadedComments/threadedComment1.xml"/></Relationships>`,
    );
    parts['xl/_rels/workbook.xml.rels'] = parts['xl/_rels/workbook.xml.rels']!.replace(
      '</Relationships>',
      `<Relationship Id="rIdP" Type="${RELATED}/person" Target="persons/person.xml"/></Relationships>`,
    );
    parts['[Content_Types].xml'] = parts['[Content_Types].xml']!.replace(
      '</Types>',
      '<Override PartName="/xl/threadedComments/threadedComment1.xml" ContentType="application/vnd.ms-excel.threadedcomments+xml"/>' +
        '<Override PartName="/xl/persons/person.xml" ContentType="application/vnd.ms-excel.person+xml"/></Types>',
    );
  });
}
