/** A worker whose run was killed ends too, and with it the browsers and servers that its tests started. */
process.once('disconnect', () => process.exit(1));
