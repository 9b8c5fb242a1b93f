/**
 * How many cases the property tests run and from which seed. `npm test` runs 5,000 calls of functions from
 * one fixed seed, so that it is repeatable; `npm run fuzz` sets both variables.
 */
const USUAL = 5_000;
export const CASES = Number(process.env['FUZZ_CASES'] ?? USUAL);
export const SEED = Number(process.env['FUZZ_SEED'] ?? 1_959);
/** How many times as many cases as usual. */
export const MORE = Math.ceil(CASES / USUAL);

/** Parameters of fc.assert for a property that takes `share` of all cases, or 25 where that is more. */
export const runs = (share: number): { numRuns: number; seed: number } => ({
  numRuns: Math.max(25, Math.ceil(CASES * share)),
  seed: SEED,
});
