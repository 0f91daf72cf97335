import { vi } from 'vitest';

/**
 * A clock that goes on by a millisecond whenever it is looked at, in place of both of the machine's: what a search may
 * do in its time is then a number of looks, the same on every machine.
 */
export function countedClock(): { readonly looks: () => number; readonly stop: () => void } {
  let looks = 0;
  const look = (): number => (looks += 1);
  const clocks = [
    vi.spyOn(performance, 'now').mockImplementation(look),
    vi.spyOn(Date, 'now').mockImplementation(look),
  ];
  return { looks: () => looks, stop: () => clocks.forEach((clock) => clock.mockRestore()) };
}
