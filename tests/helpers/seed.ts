/** Before every test file: the cases that fast-check invents come from one seed, so that a run of `npm test` can be repeated; `npm run fuzz` gives a fresh one, and more cases. */
import fc from 'fast-check';
import { MORE, SEED } from '../property/runs';

fc.configureGlobal({ seed: SEED, ...(MORE > 1 ? { numRuns: 100 * MORE } : {}) });
