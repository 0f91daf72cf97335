import { argumentKinds } from '../formula/parameter.ts';
import type { EngineeringFunction } from '../formula/define.ts';
import {
  exampleWords,
  firstOfSpill,
  noPlainFormula,
  parameterFacts,
  plainFormula,
} from '../functions/function-words.ts';
import { subjects } from '../functions/index.ts';
import { marked } from './marked-source.ts';
import { type Entry, facts, type Section } from './entry.ts';

function plainText(item: EngineeringFunction): string {
  const formula = plainFormula(item);
  return formula === undefined ? noPlainFormula : `${item.spills ? firstOfSpill : ''}\`${formula}\``;
}

const entry = (item: EngineeringFunction): Entry => ({
  name: `\`${item.signature}\``,
  says: item.summary,
  facts: facts(
    ...Object.entries(item.parameters).map(([name, parameter]) => ({
      label: name,
      text: parameterFacts(parameter).join('; '),
    })),
    {
      label: 'gives',
      text: `${item.result.doc}: ${argumentKinds[item.result.kind].says}${
        item.spills ? ', filling the cells below and beside' : ''
      }`,
    },
    { label: 'example', text: `\`${item.example[0]}\` is \`${exampleWords(item)}\`` },
    { label: 'source', text: marked(item.source) },
    { label: 'in standard functions', text: plainText(item) },
  ),
});

/** The engineering functions, by subject. */
export const functionSection = (): Section => ({
  about: [
    'These functions and the standard ones work in any cell of the book, on the command line and in exported books. ' +
      'Give all lengths of one call in the same unit, and the answer is in that unit too. Angles are in degrees. A ' +
      'parameter in square brackets may be left out.',
    'An argument that is not a number gives #VALUE!, one outside its limits #NUM!, each with a message that names ' +
      'it. In standard functions: the same calculation for other spreadsheet programs, with its guards against wrong ' +
      'arguments.',
  ],
  entry: 'function',
  layout: 'blocks',
  groups: subjects.map(({ subject, functions }) => ({ title: subject, entries: functions.map(entry) })),
});
