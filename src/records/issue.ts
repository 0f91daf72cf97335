/** What is wrong with a cell, and what to do about it. */
export interface Issue {
  /** What was given and why it will not do, without a full stop. */
  readonly wrong: string;
  /** What is allowed, or what to do. */
  readonly remedy: string;
}
