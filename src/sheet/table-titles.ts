/** Titles of a table's columns: a text each, and no two alike in any case. Source: ECMA-376 part 1, 18.5.1.3 (tableColumn). */

/** The titles that header cells give; a blank cell is undefined. A cell that is blank, or repeats a title, gets a title that is made for it. */
export function tableTitles(texts: readonly (string | undefined)[]): string[] {
  const first = new Set<string>();
  // Typed titles are taken first, so that no made one takes the name of a typed one further right.
  const own = texts.map((text) => {
    if (text === undefined || text === '' || first.has(text.toLowerCase())) return undefined;
    first.add(text.toLowerCase());
    return text;
  });
  return own.map((title, index) => {
    if (title !== undefined) return title;
    const stem = texts[index] || 'Column';
    let number = texts[index] ? 2 : index + 1;
    while (first.has(`${stem}${number}`.toLowerCase())) number++;
    first.add(`${stem}${number}`.toLowerCase());
    return `${stem}${number}`;
  });
}
