/** The page of one function: meaning, drawing, parameters, result, worked examples, source, limits. */
import { escapeMarkup } from '../../core/markup';
import {
  exampleFormula,
  NAMESPACE,
  signature,
  unitSign,
  unitWords,
  type Definition,
  type Example,
  type Parameter,
} from '../define';
import { CellError, type Cell, type Matrix } from '../../sheet/cell';
import { drawingFor } from '../drawings';
import { CAUTION, page } from './html';

/** File name of a function's page. */
export const pageName = (definition: Definition): string => `${definition.name}.html`;

export function functionPage(definition: Definition): string {
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
