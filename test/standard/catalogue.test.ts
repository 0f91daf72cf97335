import { HyperFormula } from 'hyperformula';
import { describe, expect, test } from 'vitest';
import { standardGroups } from '../../src/formula/standard-functions.ts';
import { standardNames } from './compared.ts';

/** What is said of the standard functions is said of those that there are, with the arguments that they take. */

const metadataOf = (name: string) => HyperFormula.getFunctionPlugin(name)?.implementedFunctions[name];

const described = standardGroups.flatMap(({ functions }) => functions);

test('every function is described once, and no other', () => {
  // Known to the engine without being registered.
  const names = [...standardNames(), 'OFFSET'].filter((name, at, all) => all.indexOf(name) === at).toSorted();
  expect(described.map(({ name }) => name).toSorted()).toEqual(names);
});

describe('takes as many arguments as the engine lets it have', () => {
  /** Functions that look at their arguments themselves. */
  const byThemselves = new Set(['LET', 'SORTBY', 'SWITCH', 'TYPE', 'ISREF', 'NEGBINOMDIST', 'HYPGEOMDIST', 'NPV']);

  test.each(described.filter(({ name }) => metadataOf(name) !== undefined && !byThemselves.has(name)))(
    '$signature',
    ({ name, takes, repeats }) => {
      const { parameters = [], repeatLastArgs = 0 } = metadataOf(name) ?? {};
      const optional = parameters.map((one) => one.optionalArg === true || one.defaultValue !== undefined);
      expect(takes.length).toBe(parameters.length);
      expect(takes.map((one) => one.optional)).toEqual(optional);
      expect(repeats).toBe(repeatLastArgs > 0);
    },
  );
});
