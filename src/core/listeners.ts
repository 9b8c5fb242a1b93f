/** Those who are told of something. One that fails keeps nothing from the others, nor from what it is told of. */
export class Listeners<Told extends readonly unknown[]> {
  private readonly all = new Set<(...told: Told) => void>();

  get isEmpty(): boolean {
    return this.all.size === 0;
  }

  /** Gives what ends the telling. */
  add(listener: (...told: Told) => void): () => void {
    this.all.add(listener);
    return () => this.all.delete(listener);
  }

  tell(...told: Told): void {
    for (const listener of [...this.all])
      try {
        listener(...told);
      } catch (error) {
        queueMicrotask(() => {
          throw error;
        });
      }
  }

  clear(): void {
    this.all.clear();
  }
}
