/** A step of 1, 2, 2.5 or 5 times a power of ten that parts a range into about as many steps as wanted, not more. */
export function roundStep(from: number, to: number, about: number): number {
  const raw = Math.max(to - from, 1e-9) / about;
  const power = 10 ** Math.floor(Math.log10(raw));
  return power * ([1, 2, 2.5, 5, 10].find((factor) => factor * power >= raw * (1 - 1e-9)) ?? 10);
}

/** Whole steps over a range, the outer ones beyond the range's ends. */
function stepsOver(from: number, to: number, step: number): number[] {
  const first = Math.floor(from / step + 1e-9);
  const last = Math.ceil(to / step - 1e-9);
  return Array.from({ length: last - first + 1 }, (_, index) => Number(((first + index) * step).toPrecision(12)));
}

/** Round numbers over a range, about as many as wanted, the outer ones beyond the range's ends. */
export const roundTicks = (from: number, to: number, about: number): number[] =>
  stepsOver(from, to, roundStep(from, to, about));
