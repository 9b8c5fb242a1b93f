import tseslint from 'typescript-eslint';

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

const BY_LANGUAGE = [
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

const FILE_PATHS = [
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

const NO_CLOCK = [
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

/** Rules with types, and all others that need no selector, are oxlint's (.oxlintrc.json). */
export default tseslint.config(
  { ignores: ['dist/**', 'node_modules/**'], linterOptions: { reportUnusedDisableDirectives: 'off' } },
  { files: ['**/*.{ts,tsx}'], languageOptions: { parser: tseslint.parser } },
  { rules: { 'no-restricted-syntax': ['error', ...FILE_PATHS] } },
  { files: ['tests/**/*.{ts,tsx}'], rules: { 'no-restricted-syntax': ['error', ...NO_CLOCK, ...FILE_PATHS] } },
  {
    files: ['src/pane/**/*.{ts,tsx}', 'src/hosts/bench/lists/**/*.{ts,tsx}'],
    ignores: ['src/pane/locale/**'],
    rules: { 'no-restricted-syntax': ['error', ...BY_LANGUAGE, ...FILE_PATHS] },
  },
);
