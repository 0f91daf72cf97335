/** The engine's parts, which are wrapped where it does otherwise than it should. */

export type Step = (...given: never[]) => unknown;
export type Part = Record<string, unknown>;

/** Puts a wrapping in the place of a part's method. */
export function wrap(part: unknown, method: string, wrapping: (inner: Step) => Step): void {
  const holder = part as Part | undefined;
  const inner = holder?.[method];
  if (holder === undefined || typeof inner !== 'function')
    throw new Error(`the formula engine has no ${method} any more: its bounds must be put elsewhere`);
  holder[method] = wrapping((inner as Step).bind(holder));
}

/** A number as the engine holds it, plain or with a kind; undefined for anything else. */
export const rawNumber = (value: unknown): number | undefined =>
  typeof value === 'number'
    ? value
    : typeof value === 'object' && value !== null && 'val' in value && typeof value.val === 'number'
      ? value.val
      : undefined;
