import type { EngineeringFunction } from '../formula/define.ts';
import { argumentKinds, boundsInWords, type Parameter, timesInWords } from '../formula/parameter.ts';
import { PlainForms } from '../formula/plain.ts';
import { printed } from '../formula/syntax.ts';
import { subjects } from './index.ts';

/** A function in words, the same in help, in the reference and in exported books. */

const forms = new PlainForms(subjects.flatMap(({ functions }) => functions));

/** What a parameter takes: "a length, more than 0". */
const takes = (parameter: Parameter): string => {
  const { says } = argumentKinds[parameter.kind];
  const bounds = boundsInWords(parameter);
  return bounds === '' ? says : bounds.startsWith(says) ? bounds : `${says}, ${bounds}`;
};

/** What a parameter takes, what it is, and how often it is given. */
export const parameterFacts = (parameter: Parameter): readonly string[] =>
  [takes(parameter), parameter.doc, timesInWords(parameter)].filter((part) => part !== '');

/**
 * A call with each parameter's name for its argument, in standard functions; of any number of arguments with two.
 * undefined where there is none.
 */
export function plainFormula({ name, parameters }: EngineeringFunction): string | undefined {
  const tree = forms.tree({
    type: 'call',
    name,
    args: Object.entries(parameters).flatMap(([parameter, { rest }]) =>
      (rest === true ? [1, 2].map((place) => `${parameter}${place}`) : [parameter]).map(
        (argument) => ({ type: 'name', name: argument }) as const,
      ),
    ),
  });
  return tree === undefined ? undefined : printed(tree);
}

/** What comes before the plain formula of a function that fills several cells. */
export const firstOfSpill = 'first cell of the rows it fills: ';

export const noPlainFormula = 'none: its cells are written as values';

/** The value of the example; of several cells row by row. */
export const exampleWords = ({ example: [, value] }: EngineeringFunction): string =>
  typeof value === 'object' ? value.map((row) => row.join(', ')).join('; ') : String(value);
