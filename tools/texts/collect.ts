/** Finds the pane's texts in its source, every literal of t(), rich() and mark(), and those of its pictures, every literal of words(), with the files that show them. */
import ts from 'typescript';
import { partsOf } from './message';

export interface SourceFile {
  /** From the project's root, with slashes. */
  readonly path: string;
  readonly source: string;
}

export interface Collected {
  /** The files that have each text, by the text; texts and files sorted. */
  readonly texts: ReadonlyMap<string, readonly string[]>;
  /** "src/pane/views/prices/toolbar.tsx:31: …", in the order of the source */
  readonly faults: readonly string[];
}

const NAMES = new Set(['t', 'rich', 'mark']);
/** Pictures get the function that gives their words from whoever draws them, always by this name. */
const PICTURES = 'src/pictures/';
const WORDS = 'words';
const LOCALE = /(?:^|\/)(?:locale|messages)$/;

export function collectTexts(files: readonly SourceFile[]): Collected {
  const texts = new Map<string, Set<string>>();
  const faults: string[] = [];
  for (const { path, source } of files) {
    const file = ts.createSourceFile(
      path,
      source,
      ts.ScriptTarget.Latest,
      true,
      path.endsWith('x') ? ts.ScriptKind.TSX : ts.ScriptKind.TS,
    );
    const names = path.startsWith(PICTURES) ? new Map([[WORDS, WORDS]]) : importedNames(file);
    if (names.size === 0) continue;
    const visit = (node: ts.Node): void => {
      const name =
        ts.isCallExpression(node) && ts.isIdentifier(node.expression) ? names.get(node.expression.text) : undefined;
      if (name && ts.isCallExpression(node)) read(node, name);
      ts.forEachChild(node, visit);
    };
    const read = (call: ts.CallExpression, name: string): void => {
      const fault = (what: string): number =>
        faults.push(`${path}:${file.getLineAndCharacterOfPosition(call.getStart()).line + 1}: ${what}`);
      const [first, values] = call.arguments;
      const found = first ? literalsOf(first) : undefined;
      if (!found)
        return void fault(
          `${name}(${first ? first.getText() : ''}) takes a text that stands there: a literal, or a choice of literals`,
        );
      if (found.others > 0 && (name === 'mark' || name === WORDS))
        return void fault(`${name}(${first!.getText()}) takes a literal`);
      for (const text of found.texts) {
        for (const what of wrongIn(text)) fault(`“${text}” ${what}`);
        if (name !== 'mark') for (const what of wrongValues(text, values)) fault(`“${text}” ${what}`);
        if (!texts.has(text)) texts.set(text, new Set());
        texts.get(text)!.add(path);
      }
    };
    visit(file);
  }
  return {
    texts: new Map([...texts].sort(([a], [b]) => order(a, b)).map(([text, places]) => [text, [...places].sort(order)])),
    faults,
  };
}

/** By the code of the characters, which is the same on every computer. */
const order = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** What t, rich and mark are called in a file of the pane. */
function importedNames(file: ts.SourceFile): Map<string, string> {
  const names = new Map<string, string>();
  for (const statement of file.statements) {
    if (!ts.isImportDeclaration(statement) || !LOCALE.test((statement.moduleSpecifier as ts.StringLiteral).text))
      continue;
    const bindings = statement.importClause?.namedBindings;
    if (!bindings || !ts.isNamedImports(bindings)) continue;
    for (const { name, propertyName } of bindings.elements) {
      const original = (propertyName ?? name).text;
      if (NAMES.has(original)) names.set(name.text, original);
    }
  }
  return names;
}

interface Literals {
  readonly texts: readonly string[];
  /** Variables, whose texts are marked elsewhere: the compiler sees to that. */
  readonly others: number;
}

/** The literals that an expression can be; undefined where it is put together from parts. */
function literalsOf(node: ts.Expression): Literals | undefined {
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) return { texts: [node.text], others: 0 };
  if (
    ts.isParenthesizedExpression(node) ||
    ts.isNonNullExpression(node) ||
    ts.isAsExpression(node) ||
    ts.isSatisfiesExpression(node)
  )
    return literalsOf(node.expression);
  if (ts.isConditionalExpression(node)) return both(node.whenTrue, node.whenFalse);
  if (
    ts.isBinaryExpression(node) &&
    [ts.SyntaxKind.QuestionQuestionToken, ts.SyntaxKind.BarBarToken].includes(node.operatorToken.kind)
  )
    return both(node.left, node.right);
  if (
    ts.isIdentifier(node) ||
    ts.isPropertyAccessExpression(node) ||
    ts.isElementAccessExpression(node) ||
    ts.isCallExpression(node)
  )
    return { texts: [], others: 1 };
  return undefined;
}

function both(one: ts.Expression, other: ts.Expression): Literals | undefined {
  const [a, b] = [literalsOf(one), literalsOf(other)];
  return a && b && { texts: [...a.texts, ...b.texts], others: a.others + b.others };
}

/** What a translator, or the reading of ICU messages, would stumble over. */
function wrongIn(text: string): string[] {
  const parts = partsOf(text);
  return [
    ...(text.trim() === text && text !== ''
      ? []
      : ['begins or ends with a space: a text is a whole sentence, not a piece of one']),
    ...(/['"]/.test(text) ? ['has plain quotes: write “ ” and ’'] : []),
    ...('wrong' in parts ? [`is no ICU message: ${parts.wrong}`] : []),
  ];
}

/** Values that a text lacks, or that it has no place for, where they stand in an object literal. */
function wrongValues(text: string, values: ts.Expression | undefined): string[] {
  const parts = partsOf(text);
  if ('wrong' in parts) return [];
  if (!values) return parts.names.length > 0 ? [`lacks the values ${parts.names.join(', ')}`] : [];
  if (!ts.isObjectLiteralExpression(values) || values.properties.some(ts.isSpreadAssignment)) return [];
  const given = values.properties.map(({ name }) => name?.getText() ?? '');
  const lacking = parts.names.filter((name) => !given.includes(name));
  const extra = given.filter((name) => !parts.names.includes(name));
  return [
    ...(lacking.length > 0 ? [`lacks the values ${lacking.join(', ')}`] : []),
    ...(extra.length > 0 ? [`has no place for ${extra.join(', ')}`] : []),
  ];
}
