/** Types, lint, import directions: everything that can be said of the code without running it. */
import { ensureInstalled, run } from './install.mjs';

ensureInstalled();
const bin = (name) => `node_modules/${name}`;
run(process.execPath, [bin('typescript/bin/tsc'), '-p', '.']);
run(process.execPath, [bin('eslint/bin/eslint.js'), '--config', 'tools/eslint.config.mjs', '--max-warnings', '0', 'src', 'tests', 'tools']);
run(process.execPath, [bin('dependency-cruiser/bin/dependency-cruise.mjs'), '--config', 'tools/dependency-cruiser.cjs', 'src']);
