/**
 * The function reference as pages, made from the catalogue. It is served by the bench, opened from the
 * pane and from the functions' own help, and stands by itself as files.
 */
import { escapeMarkup } from '../../core/markup';
import {
  exampleFormula,
  NAMESPACE,
  signature,
  unitSign,
  unitWords,
  FAMILIES,
  type Definition,
  type Example,
  type Parameter,
} from '../define';
import { CellError, type Cell, type Matrix } from '../../sheet/cell';
import { drawingFor } from '../drawings';
import { catalogue } from '../catalogue';

// Pieces of a page that every page of the reference shares.

const CAUTION =
  'An estimate is not a weighing. Loading limits come from the aircraft’s own documents, structural joints from the designer’s drawings; local rules and licensed inspection come first.';

const STYLE = `
:root { color-scheme: light dark; --line: color-mix(in srgb, currentColor 22%, transparent); --soft: color-mix(in srgb, currentColor 7%, transparent); font: 16px/1.55 system-ui, "Segoe UI", sans-serif; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 52rem; padding: 1.25rem 1rem 4rem; }
a { color: inherit; text-underline-offset: .18em; } a:hover { text-decoration-thickness: 2px; }
a:focus-visible, input:focus-visible { outline: 2px solid; outline-offset: 2px; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: .5rem 0; overflow-wrap: anywhere; } h2 { font-size: 1.1rem; margin: 2rem 0 .5rem; }
code, .number { font-family: ui-monospace, Consolas, "DejaVu Sans Mono", monospace; font-size: .92em; font-variant-numeric: tabular-nums; }
pre { background: var(--soft); padding: .6rem .8rem; overflow-x: auto; margin: .5rem 0; }
table { border-collapse: collapse; width: 100%; margin: .5rem 0; }
th, td { text-align: left; vertical-align: top; padding: .35rem .8rem .35rem 0; border-bottom: 1px solid var(--line); }
th { font-weight: 600; } td.number, th.number { text-align: right; white-space: nowrap; }
.scroll { overflow-x: auto; }
figure { margin: 1rem 0; } figure svg { max-width: 100%; height: auto; }
.caution { border-left: 4px solid; padding-left: .8rem; }
nav.back { font-size: .95rem; }
input[type=search] { font: inherit; padding: .35rem .6rem; width: 100%; max-width: 24rem; border: 1px solid; background: transparent; color: inherit; }
@media print { nav, .find { display: none; } }`;

/** A whole page. Everything it needs is inside it. */
const page = (title: string, body: string): string => `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeMarkup(title)}</title>
<style>${STYLE}</style>
</head>
<body>
${body}
</body>
</html>
`;

// The page of one function: meaning, drawing, parameters, result, worked examples, source, limits.

/** File name of a function's page. */
export const pageName = (definition: Definition): string => `${definition.name}.html`;

function functionPage(definition: Definition): string {
  const { name, family, summary, rowWise, formula, source, limits = [], examples } = definition;
  const drawing = drawingFor(name, drawnValues(definition));
  return page(
    `${NAMESPACE}.${name}`,
    `<nav class="back"><a href="index.html">All functions</a> · <a href="index.html#${family}">${family}</a></nav>
<main>
<h1>${NAMESPACE}.${name}</h1>
<p>${escapeMarkup(summary)}</p>
<pre><code>=${escapeMarkup(signature(definition))}</code></pre>
<p>${rowWise ? 'Takes single cells or whole columns, and gives one value a row. A blank row gives a blank; a wrong one gives its own error and no other.' : 'Takes whole columns or blocks of cells at once.'}</p>
${drawing ? `<figure>${drawing}</figure>` : ''}
${formula ? `<h2>Relation</h2>\n<pre><code>${escapeMarkup(formula)}</code></pre>` : ''}
<h2>What it takes</h2>
<div class="scroll"><table><thead><tr><th scope="col">Argument</th><th scope="col">Meaning</th><th scope="col">Takes</th><th scope="col">If left out</th></tr></thead>
<tbody>${definition.parameters.map(parameterRow).join('\n')}</tbody></table></div>
<h2>What it gives</h2>
${resultPart(definition)}
<h2>Worked ${examples.length > 1 ? 'examples' : 'example'}</h2>
${examples.map((example) => examplePart(definition, example)).join('\n')}
<h2>Source</h2>
<p>${escapeMarkup(source === 'definition' ? 'Definition: plain geometry or arithmetic.' : source)}</p>
${limits.length > 0 ? `<h2>What it does not know</h2>\n<ul>${limits.map((limit) => `<li>${escapeMarkup(limit)}</li>`).join('')}</ul>` : ''}
<p class="caution">${escapeMarkup(CAUTION)}</p>
</main>`,
  );
}

/** Numbers of the first example, so that the drawing shows them; undefined where it has blocks of cells. */
function drawnValues(definition: Definition): number[] | undefined {
  const args = definition.examples[0]?.args ?? [];
  const values = args.filter((argument): argument is number => typeof argument === 'number');
  return values.length === args.length ? values : undefined;
}

function parameterRow(parameter: Parameter): string {
  const { name, help, optional, default: standsFor } = parameter;
  const omitted = !optional
    ? 'required'
    : standsFor === undefined || typeof standsFor === 'object'
      ? 'nothing'
      : typeof standsFor === 'boolean'
        ? String(standsFor).toUpperCase()
        : String(standsFor);
  return `<tr><th scope="row"><code>${escapeMarkup(name)}</code></th><td>${escapeMarkup(help)}</td><td>${escapeMarkup(parameter.takes('in-lb'))}</td><td>${escapeMarkup(omitted)}</td></tr>`;
}

function resultPart({ result }: Definition): string {
  if (result.kind !== 'table') {
    const unit = result.dimension
      ? `: ${unitWords(result.dimension, 'in-lb')}, or ${unitWords(result.dimension, 'mm-kg')} with "mm-kg"`
      : '';
    return `<p>${escapeMarkup(`${sentence(result.help)}${unit}`)}.</p>`;
  }
  const columns = result.columns
    .map(
      ({ name, dimension }) =>
        `<tr><th scope="row">${escapeMarkup(name)}</th><td>${escapeMarkup(dimension ? unitSign(dimension, 'in-lb') : '')}</td></tr>`,
    )
    .join('');
  return `<p>${escapeMarkup(sentence(result.help))}. It spills these columns:</p>\n<table><thead><tr><th scope="col">Column</th><th scope="col">Unit</th></tr></thead><tbody>${columns}</tbody></table>`;
}

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function examplePart(definition: Definition, example: Example): string {
  const notes = [example.note, example.source && `published: ${example.source}`].filter(Boolean).join('; ');
  return `<pre><code>${escapeMarkup(exampleFormula(definition, example))}</code></pre>\n${gives(example.gives)}${notes ? `\n<p>${escapeMarkup(notes)}</p>` : ''}`;
}

function gives(value: Cell | Matrix): string {
  if (!Array.isArray(value)) return `<p>gives <strong class="number">${escapeMarkup(shown(value))}</strong></p>`;
  const rows = value
    .map(
      (row) =>
        `<tr>${row.map((cell) => `<td${typeof cell === 'number' ? ' class="number"' : ''}>${escapeMarkup(shown(cell))}</td>`).join('')}</tr>`,
    )
    .join('');
  return `<p>gives</p>\n<div class="scroll"><table>${rows}</table></div>`;
}

function shown(cell: Cell): string {
  if (cell === null || cell === '') return '(blank)';
  if (cell instanceof CellError) return cell.toString();
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  return typeof cell === 'number' ? String(Number(cell.toPrecision(6))) : cell;
}

/** Every page by its file name, index.html first. */
export const referencePages = (definitions: readonly Definition[] = catalogue): Record<string, string> => ({
  'index.html': indexPage(definitions),
  ...Object.fromEntries(definitions.map((definition) => [pageName(definition), functionPage(definition)])),
});

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
