/** Style sheets are imported for what they do to the page; the bundler takes them in. */
declare module '*.css';
