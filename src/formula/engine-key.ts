/** The variable that holds the formula engine's licence key. */
export const engineKeyVariable = 'SKEWBOOK_HYPERFORMULA_KEY';

/** The command line runs on Node, page and workers do not; a build for a browser says so. */
export const inBrowser = import.meta.env?.SSR === false;

/**
 * The formula engine's licence key, '' when none is set; blank counts as not set.
 *
 * A browser has no environment: there it is the one of the build. The command line reads its own, so that no key stays
 * in a program that was built under another.
 */
export function engineKey(): string {
  const given = inBrowser ? (import.meta.env[engineKeyVariable] as string | undefined) : process.env[engineKeyVariable];
  return (given ?? '').trim();
}

/** The engine does not take the key that is set: nothing that needs it can be computed. */
export class RefusedKey extends Error {
  constructor() {
    super(
      `${engineKeyVariable} holds a key that the formula engine, HyperFormula, refuses: correct it, or unset it to ` +
        `use the engine under the GNU GPL, version 3.`,
    );
    this.name = 'RefusedKey';
  }
}
