import { HyperFormula, LicenseCapabilityMissingError } from 'hyperformula';
import { engineKey, engineKeyVariable, inBrowser, RefusedKey } from './engine-key.ts';

/** Uses HyperFormula under the GNU GPL version 3, which is why Skewbook itself is under that licence. */
const gplKey = 'gpl-v3';

/** A name, which the engine takes under no key that it refuses. */
const needed = [{ name: 'Needed', expression: '=1' }];

let refused = false;

/** Keeps back what a step says on the console; it is said after all unless the step throws. */
function quietly<Result>(step: () => Result): Result {
  const { warn, error } = console;
  const held: (() => void)[] = [];
  console.warn = (...words: unknown[]) => held.push(() => warn(...words));
  console.error = (...words: unknown[]) => held.push(() => error(...words));
  try {
    return step();
  } catch (thrown) {
    held.length = 0;
    throw thrown;
  } finally {
    Object.assign(console, { warn, error });
    for (const say of held) say();
  }
}

/**
 * What is built with the engine's licence key.
 *
 * A key that the engine refuses ends the command line (`RefusedKey`). The page goes on under the GPL, which anyone may,
 * since a planner at the page can't change its key, and says so (`engineKeyNotice`).
 */
export function licensed<Built>(build: (licenseKey: string) => Built): Built {
  const key = engineKey();
  if (key === '' || refused) return build(gplKey);
  try {
    return quietly(() => build(key));
  } catch (error) {
    if (!(error instanceof LicenseCapabilityMissingError)) throw error;
    if (!inBrowser) throw new RefusedKey();
    refused = true;
    return build(gplKey);
  }
}

/** What the page says of a key that the engine refuses; undefined when it takes it or none is set. */
export function engineKeyNotice(): string | undefined {
  if (engineKey() === '') return undefined;
  licensed((licenseKey) => HyperFormula.buildEmpty({ licenseKey }, needed).destroy());
  return refused
    ? `This page was built with a key in ${engineKeyVariable} that the formula engine, HyperFormula, refuses. ` +
        `Formulas ` +
        `work under the GNU GPL, version 3, until the page is built with a valid key.`
    : undefined;
}
