/** Those who hear of a change. One that fails does so by itself, for the page to tell: the others still hear of it. */
export class Listeners<Change> {
  readonly #listeners = new Set<(change: Change) => void>();

  listen(listener: (change: Change) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  tell(change: Change): void {
    for (const listener of this.#listeners) {
      try {
        listener(change);
      } catch (error) {
        queueMicrotask(() => {
          throw error;
        });
      }
    }
  }
}
