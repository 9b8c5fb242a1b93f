/** What `work` gives; undefined where it throws an error of this kind. Any other error is a fault, and is thrown on. */
export function unless<T>(Expected: abstract new (...given: never[]) => Error, work: () => T): T | undefined {
  try {
    return work();
  } catch (error) {
    if (error instanceof Expected) return undefined;
    throw error;
  }
}
