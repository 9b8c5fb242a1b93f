/**
 * Leaves out of a definition what only pages and metadata read (examples, sources, formulas, limits in words,
 * summaries): the bundles of the functions and of the pane compute, and Excel has its help from the metadata file.
 */
import ts from 'typescript';

const DEFINERS = new Set(['defineRowWise', 'defineWhole']);
const DOCUMENTATION = new Set(['summary', 'formula', 'source', 'limits', 'examples', 'family']);

/** The source of a TypeScript module without the documentation of its definitions. */
export function stripDocumentation(source) {
  if (![...DEFINERS].some((name) => source.includes(name))) return source;
  const file = ts.createSourceFile('module.tsx', source, ts.ScriptTarget.Latest, true, ts.ScriptKind.TS);
  const cuts = [];
  const visit = (node) => {
    if (ts.isCallExpression(node) && ts.isIdentifier(node.expression) && DEFINERS.has(node.expression.text)) {
      const [definition] = node.arguments;
      if (definition && ts.isObjectLiteralExpression(definition))
        definition.properties.forEach((property, index) => {
          const name = property.name && ts.isIdentifier(property.name) ? property.name.text : '';
          if (DOCUMENTATION.has(name))
            cuts.push([
              property.getFullStart(),
              definition.properties[index + 1]?.getFullStart() ?? definition.properties.end,
            ]);
        });
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  let text = source;
  for (const [start, end] of cuts.sort(([a], [b]) => b - a)) text = text.slice(0, start) + text.slice(end);
  return text;
}

/** As a webpack loader, before the compilation to JavaScript. */
export default function loader(source) {
  return stripDocumentation(source);
}
