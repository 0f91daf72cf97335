/** Digits of lengths as columns show them: to the millimetre, and to a tenth of it. */
export const short = { metric: 0, us: 2 } as const;
export const fine = { metric: 1, us: 3 } as const;
