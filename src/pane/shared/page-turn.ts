/** Resolves when the page has had its turn: what is pressed meanwhile is taken, and what is shown is drawn. */
export const pageTurn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));
