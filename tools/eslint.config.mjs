import tseslint from 'typescript-eslint';
import { BY_LANGUAGE, FILE_PATHS, LANGUAGE_PLACES, NO_CLOCK } from './selectors.mjs';

/** Rules with types, and all others that need no selector, are oxlint's (.oxlintrc.json). */
export default tseslint.config(
  { ignores: ['dist/**', 'node_modules/**'], linterOptions: { reportUnusedDisableDirectives: 'off' } },
  { files: ['**/*.{ts,tsx}'], languageOptions: { parser: tseslint.parser } },
  { rules: { 'no-restricted-syntax': ['error', ...FILE_PATHS] } },
  { files: ['tests/**/*.{ts,tsx}'], rules: { 'no-restricted-syntax': ['error', ...NO_CLOCK, ...FILE_PATHS] } },
  {
    files: LANGUAGE_PLACES.map((place) => `${place}/**/*.{ts,tsx}`),
    ignores: ['src/pane/locale/**'],
    rules: { 'no-restricted-syntax': ['error', ...BY_LANGUAGE, ...FILE_PATHS] },
  },
);
