/** A worker whose run was killed ends too, and with it the browsers and servers that its tests started. */
const end = Symbol.for('tarebook.end-with-run');
const worker = process as unknown as Record<symbol, boolean>;
// Read for each test file of a worker.
if (!worker[end]) process.once('disconnect', () => process.exit(1));
worker[end] = true;
