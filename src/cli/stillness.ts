/**
 * Milliseconds of the processor by which a step has moved: one that waits for its turn on a busy machine comes to them
 * sooner or later, while a process that only waits takes a tenth of them in two minutes. Ours.
 */
const moved = 500;

/** How long a run has stood still, by what it takes of the processor, however slowly. All in milliseconds. */
export class Stillness {
  #at: number;
  #processor: number;

  constructor(at: number, processor: number) {
    this.#at = at;
    this.#processor = processor;
  }

  /** For how long it has not moved, once it has taken so much by a moment. */
  until(at: number, processor: number): number {
    if (processor - this.#processor >= moved) [this.#at, this.#processor] = [at, processor];
    return at - this.#at;
  }
}
