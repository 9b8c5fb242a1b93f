/** Folder beside the functions with the page that explains each of them. A module of its own: the pane needs no more of the reference. */
export const REFERENCE = 'reference';
