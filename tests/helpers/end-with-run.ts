/** A worker whose run was killed ends too, and with it the browsers and servers that its tests started. */
const end = Symbol.for('tarebook.end-with-run');
const worker = process as unknown as Record<symbol, boolean>;
// Read for each test file of a worker.
if (!worker[end]) {
  process.once('disconnect', () => process.exit(1));
  // A run ends its workers by a signal: what is kept for all test files of one is taken away when it exits.
  process.once('SIGTERM', () => process.exit(0));
}
worker[end] = true;
