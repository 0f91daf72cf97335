import { distributions } from './catalogue/distributions.ts';
import { engineering, money } from './catalogue/engineering.ts';
import { databases, lookingUp, ranges } from './catalogue/looking-up.ts';
import { angles, matrices, numbers } from './catalogue/numbers.ts';
import { statistics } from './catalogue/statistics.ts';
import { conditions, days, kinds, texts } from './catalogue/texts-and-days.ts';

/** The functions that any spreadsheet has, as far as cells know them: for help, the reference and completion. */

interface StandardArgument {
  readonly name: string;
  readonly optional: boolean;
}

interface DescribedFunction {
  readonly name: string;
  /** ROUND(number, digits) as help shows it. */
  readonly signature: string;
  /** In order; of those that come again, the first time. */
  readonly takes: readonly StandardArgument[];
  /** Whether its last arguments may come again and again. */
  readonly repeats: boolean;
  readonly says: string;
}

interface DescribedGroup {
  readonly title: string;
  readonly functions: readonly DescribedFunction[];
}

const line = /^([A-Z][A-Z0-9.]*)\(([^()]*)\): (.+)$/;

function described(text: string): DescribedFunction {
  const [, name, listed = '', says] = line.exec(text) ?? [];
  if (name === undefined || says === undefined) throw new Error(`"${text}" describes no function`);
  const given = listed === '' ? [] : listed.split(', ');
  return {
    name,
    signature: `${name}(${listed})`,
    takes: given
      .filter((argument) => argument !== '…')
      .map((argument) => ({ name: argument.replace(/^\[(.*)\]$/, '$1'), optional: argument.startsWith('[') })),
    repeats: given.includes('…'),
    says,
  };
}

const groups = {
  Numbers: numbers,
  Angles: angles,
  Conditions: conditions,
  'Looking up': lookingUp,
  'Ranges put together anew': ranges,
  Texts: texts,
  'Days and times': days,
  Statistics: statistics,
  Distributions: distributions,
  Matrices: matrices,
  'Kinds of values': kinds,
  Engineering: engineering,
  'Lists with criteria': databases,
  Money: money,
} as const;

/** The functions by subject, those of a subject by name. */
export const standardGroups: readonly DescribedGroup[] = Object.entries(groups).map(([title, lines]) => ({
  title,
  functions: lines
    .trim()
    .split('\n')
    .map(described)
    .toSorted((one, other) => (one.name < other.name ? -1 : 1)),
}));
