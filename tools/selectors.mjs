/**
 * The rules of the linter that are a selector over the tree of a file. Reading a file into a tree takes a hundred times
 * as long as looking for a word: those for all files say by `HAS_WORDS` which files they can match at all.
 */

/** What is shown or spoken where it stands in JSX: attributes, and properties that become them. */
const SPOKEN =
  '/^(?:aria-(?:label|description|roledescription|valuetext|placeholder)|title|alt|placeholder|label|shownLabel|saveLabel|heading|hint|caption|summary|legend|validationMessage)$/';
const PROPERTIES = '/^(?:label|title|heading|hint|caption|placeholder|summary)$/';
const WORDS = '/[A-Za-z]{2}|^[A-Z]$/';

/** A literal with letters right there, or in a choice or a template. */
const wordsIn = (place) =>
  [
    '',
    ' > ConditionalExpression',
    ' > LogicalExpression',
    ' > ConditionalExpression > ConditionalExpression',
    ' > LogicalExpression > ConditionalExpression',
  ].flatMap((choice) => [
    `${place}${choice} > Literal[value=${WORDS}]:not([parent.type="BinaryExpression"])`,
    `${place}${choice} > TemplateLiteral > TemplateElement[value.raw=${WORDS}]`,
  ]);

const text = (selector) => ({
  selector,
  message: "A text is shown by t('…') or rich('…') of the pane's locale; one in a constant is mark('…')ed.",
});

export const BY_LANGUAGE = [
  text(`JSXText[value=/[A-Za-z]{2}/]`),
  ...wordsIn(':matches(JSXElement, JSXFragment) > JSXExpressionContainer').map(text),
  ...[`JSXAttribute[name.name=${SPOKEN}]`, `JSXAttribute[name.name=${SPOKEN}] > JSXExpressionContainer`]
    .flatMap(wordsIn)
    .map(text),
  ...wordsIn(`Property[key.name=${PROPERTIES}]`).map(text),
  {
    selector:
      'CallExpression[callee.property.name=/^(?:toFixed|toPrecision|toLocaleString|toLocaleDateString|toLocaleTimeString)$/]',
    message:
      'A number is written by writeNumber, cellNumber or quantities of the pane: they know the place’s way of writing numbers and the workbook’s units.',
  },
  {
    selector: 'NewExpression[callee.object.name="Intl"]',
    message: 'Numbers and dates are written in src/pane/locale alone, which knows the language.',
  },
];

export const FILE_PATHS = [
  {
    selector:
      ':matches(MemberExpression[property.name="pathname"], VariableDeclarator:has(ObjectPattern > Property[key.name="pathname"])) > NewExpression[callee.name="URL"] MetaProperty',
    message: 'The pathname of a URL is no path of a file (spaces, ü, Windows): fileURLToPath gives one.',
  },
  {
    selector: ':matches(Literal[value=/^file:\\x2f\\x2f/], TemplateElement[value.raw=/file:\\x2f\\x2f/])',
    message: 'pathToFileURL makes the URL of a file.',
  },
];

export const NO_CLOCK = [
  {
    selector: 'CallExpression[callee.object.name="vi"][callee.property.name=/^wait(?:For|Until)$/]',
    message: 'It gives up after a second, which a busy machine needs: expect.poll waits for what must come.',
  },
  {
    selector:
      'CallExpression[callee.property.name=/^toBeLessThan(?:OrEqual)?$/]:has(MemberExpression[property.name="now"])',
    message: 'How long something takes is for a benchmark (tools/benchmarks).',
  },
];

/** Where the pane's language is written in, whatever words a file has. */
export const LANGUAGE_PLACES = ['src/pane', 'src/hosts/bench/lists'];
/** True for a text that FILE_PATHS or NO_CLOCK may match: the names and texts that their selectors ask for. */
export const HAS_WORDS = /pathname|file:\/\/|wait(?:For|Until)|toBeLessThan/;
