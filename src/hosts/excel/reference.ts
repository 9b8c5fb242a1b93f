/** The function reference as one page, to which Excel's "More help on this function" leads. */
import { catalogue, CellError, exampleFormula, FAMILIES, signature, unitSign, type Cell, type Definition, type Matrix, type Parameter } from '../../functions';

const STYLE = `
:root { color-scheme: light dark; font: 16px/1.5 system-ui, sans-serif; }
body { max-width: 46rem; margin: 0 auto; padding: 1rem; background: Canvas; color: CanvasText; }
h3 { margin-bottom: .25rem; } code, pre { font-family: ui-monospace, Consolas, monospace; }
h3 code { overflow-wrap: anywhere; }
table { border-collapse: collapse; } th, td { text-align: left; vertical-align: top; padding: .15rem .75rem .15rem 0; }
section { border-top: 1px solid color-mix(in srgb, currentColor 25%, transparent); }
nav ul { columns: 16rem; padding-left: 1rem; }`;

/** The whole page as HTML. */
export function referencePage(definitions: readonly Definition[] = catalogue): string {
  const families = FAMILIES.map((family) => ({ family, members: definitions.filter((definition) => definition.family === family) })).filter(
    ({ members }) => members.length > 0,
  );
  const contents = families.map(({ members }) => members.map(({ name }) => `<li><a href="#${name}">${name}</a></li>`).join('')).join('');
  const body = families.map(({ family, members }) => `<h2>${family}</h2>${members.map(entry).join('')}`).join('\n');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Tarebook worksheet functions</title>
<style>${STYLE}</style>
</head>
<body>
<header>
<h1>Tarebook worksheet functions</h1>
<p>Lengths are inches and weights pounds unless the last argument says "mm-kg". An argument in square brackets may be left out. An estimate is not a weighing: loading limits come from the aircraft's own documents, structural joints from the designer's drawings.</p>
</header>
<nav aria-label="Functions"><ul>${contents}</ul></nav>
<main>
${body}
</main>
</body>
</html>
`;
}

function entry(definition: Definition): string {
  const { name, summary, parameters, result, formula, source, limits = [], examples, rowWise } = definition;
  const columns = result.kind === 'table' ? ` Spills the columns ${result.columns.map((column) => escape(column.name)).join(', ')}.` : '';
  return `<section id="${name}">
<h3><code>${escape(signature(definition))}</code></h3>
<p>${escape(summary)}${rowWise ? ' Takes cells or whole columns.' : ''}</p>
${parameters.length > 0 ? `<table>${parameters.map(parameterRow).join('')}</table>` : ''}
<p>Gives ${escape(result.help)}${result.kind !== 'table' && result.dimension ? `, ${escape(unitSign(result.dimension, 'in-lb'))}` : ''}.${columns}</p>
${formula ? `<p><code>${escape(formula)}</code></p>` : ''}
<ul>${examples.map((example) => `<li><code>${escape(exampleFormula(definition, example))}</code> gives ${escape(value(example.gives))}${example.note ? ` (${escape(example.note)})` : ''}</li>`).join('')}</ul>
${limits.map((limit) => `<p>${escape(limit)}</p>`).join('')}
<p>Source: ${escape(source)}</p>
</section>
`;
}

function parameterRow(parameter: Parameter): string {
  const { name, help, optional, default: standsFor } = parameter;
  const omitted = optional ? ` If left out: ${typeof standsFor === 'object' || standsFor === undefined ? 'none' : String(standsFor)}.` : '';
  return `<tr><th scope="row"><code>${escape(name)}</code></th><td>${escape(help)}. Takes ${escape(parameter.takes('in-lb'))}.${escape(omitted)}</td></tr>`;
}

function value(gives: Cell | Matrix): string {
  if (Array.isArray(gives)) return gives.map((row) => row.map(value).join(', ')).join('; ');
  if (gives === null || gives === '') return 'a blank';
  if (gives instanceof CellError) return gives.code;
  return typeof gives === 'number' ? String(Number(gives.toPrecision(6))) : String(gives);
}

const escape = (text: string): string => text.replace(/[&<>"]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[sign]!);
