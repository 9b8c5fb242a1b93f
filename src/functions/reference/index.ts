/**
 * The function reference as pages, made from the catalogue. It is served by the bench, opened from the
 * pane and from the functions' own help, and stands by itself as files.
 */
import { escapeMarkup } from '../../core/markup';
import { catalogue } from '../catalogue';
import { FAMILIES, NAMESPACE, type Definition } from '../define';
import { functionPage, pageName } from './function-page';
import { CAUTION, page } from './html';

export { pageName } from './function-page';

/** Every page by its file name, index.html first. */
export function referencePages(definitions: readonly Definition[] = catalogue): Record<string, string> {
  return {
    'index.html': indexPage(definitions),
    ...Object.fromEntries(definitions.map((definition) => [pageName(definition), functionPage(definition)])),
  };
}

function indexPage(definitions: readonly Definition[]): string {
  const families = FAMILIES.flatMap((family) => {
    const members = definitions.filter((definition) => definition.family === family);
    if (members.length === 0) return [];
    const rows = members
      .map(
        (one) =>
          `<tr><th scope="row"><a href="${pageName(one)}"><code>${one.name}</code></a></th><td>${escapeMarkup(one.summary)}</td></tr>`,
      )
      .join('\n');
    return [`<h2 id="${family}">${family}</h2>\n<table><tbody>\n${rows}\n</tbody></table>`];
  });
  return page(
    'Tarebook worksheet functions',
    `<main>
<h1>Tarebook worksheet functions</h1>
<p>All begin with <code>${NAMESPACE}.</code> Lengths are inches and weights pounds; with <code>"mm-kg"</code> as the last argument they are millimetres and kilograms.</p>
<p class="caution">${escapeMarkup(CAUTION)}</p>
${families.join('\n')}
</main>`,
  );
}
