import { afterAll, beforeAll, vi } from 'vitest';
import { Engine } from '../../src/formula/engine.ts';

/** A formula that the engine reads like any other, and that throws when its value is asked for. */
export const faulty = '=REPT("planted fault",1)';

/** Lets the formula throw in all tests of a file, as a text longer than the machine holds does. */
export function withPlantedFault(): void {
  const value = Engine.prototype.value;
  beforeAll(() => {
    vi.spyOn(Engine.prototype, 'value').mockImplementation(function (this: Engine, place) {
      const found = value.call(this, place);
      if (found === 'planted fault') throw new RangeError('Invalid string length');
      return found;
    });
  });
  afterAll(() => {
    vi.restoreAllMocks();
  });
}
