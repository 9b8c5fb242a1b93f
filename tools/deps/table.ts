/** Aligned plain text. A header that begins with `>` stands over a column that ends at the right. */
export function table(headers: readonly string[], rows: readonly (readonly string[])[]): string {
  const heads = headers.map((header) => header.replace(/^>/, ''));
  const widths = heads.map((head, column) => Math.max(head.length, ...rows.map((row) => (row[column] ?? '').length)));
  const line = (cells: readonly string[]): string =>
    cells
      .map((cell, column) =>
        headers[column]!.startsWith('>') ? cell.padStart(widths[column]!) : cell.padEnd(widths[column]!),
      )
      .join('  ')
      .trimEnd();
  return [line(heads), widths.map((width) => '-'.repeat(width)).join('  '), ...rows.map(line)].join('\n');
}
