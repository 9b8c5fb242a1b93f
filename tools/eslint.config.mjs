import { fileURLToPath } from 'node:url';
import hooks from 'eslint-plugin-react-hooks';
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

export default tseslint.config(
  { ignores: ['dist/**', 'node_modules/**'] },
  ...tseslint.configs.recommended,
  {
    files: ['**/*.{ts,tsx}'],
    extends: [...tseslint.configs.recommendedTypeChecked],
    languageOptions: {
      parserOptions: { projectService: true, tsconfigRootDir: fileURLToPath(new URL('..', import.meta.url)) },
    },
    rules: {
      // A method of the port or of a host is async by its interface, whether or not it waits for anything.
      '@typescript-eslint/require-await': 'off',
      // Our classes hand on methods as arrow functions; what is taken out of an object of functions needs no `this`.
      '@typescript-eslint/unbound-method': 'off',
      // JSON and packages without types come in as `any`; the compiler's own strictness holds from the first annotation on.
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
      '@typescript-eslint/no-unsafe-enum-comparison': 'off',
      // A message shows whatever was found in a cell, also what nobody foresaw.
      '@typescript-eslint/no-base-to-string': 'off',
      'max-params': ['error', 5],
      complexity: ['error', 15],
    },
  },
  {
    files: ['**/*.{ts,tsx}'],
    plugins: { 'react-hooks': hooks },
    rules: {
      ...hooks.configs.recommended.rules,
      // The engine's own checks tell unused names; a leading underscore says that one is meant.
      '@typescript-eslint/no-unused-vars': [
        'error',
        { argsIgnorePattern: '^_', varsIgnorePattern: '^_', caughtErrors: 'none' },
      ],
      '@typescript-eslint/no-non-null-assertion': 'off',
      'max-lines': ['warn', { max: 500, skipBlankLines: true, skipComments: true }],
      eqeqeq: 'error',
      'no-console': ['error', { allow: ['error', 'warn', 'log'] }],
    },
  },
  { rules: { 'no-restricted-syntax': ['error', ...FILE_PATHS] } },
  {
    files: ['src/pane/**/*.{ts,tsx}'],
    ignores: ['src/pane/locale/**'],
    rules: { 'no-restricted-syntax': ['error', ...BY_LANGUAGE, ...FILE_PATHS] },
  },
  // What a component shows or leaves out is counted as a branch, though each is a line of its own on the page.
  { files: ['src/pane/**/*.tsx'], rules: { complexity: ['error', 20] } },
  // A `compute` body takes one argument a worksheet parameter, in the order of the function's signature.
  { files: ['src/functions/*.ts'], rules: { 'max-params': 'off' } },
  // Laws and tables of cases take one argument a drawn value or column; rows of the samples are tuples in a table.
  { files: ['tests/**', 'tools/samples/**'], rules: { 'max-lines': 'off', 'max-params': 'off' } },
);
