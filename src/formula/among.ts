/** The cases that are asked for, by their indexes in ascending order; others hold nothing of use. */
export interface Among {
  readonly at: Int32Array;
  readonly count: number;
}
