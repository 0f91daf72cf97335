import { namedSheets } from '../../sheets/index.ts';
import type { NamedValue } from '../sheet/declaration.ts';
import { valueIn } from '../sheet/named-values.ts';
import { withUnit } from '../sheet/words.ts';
import { allowedWords } from '../records/inputs.ts';
import { isoDate } from '../units/dates.ts';
import { isWords, unitOf, type UnitSystem } from '../units/quantities.ts';
import { type Entry, facts, type Section } from './entry.ts';
import { marked } from './marked-source.ts';

const valueLabel = 'value: metric; US customary';

/** A named value with its unit, to as many digits as tell it apart. */
export function figure(named: NamedValue, units: UnitSystem): string {
  const value = valueIn(named, units);
  if (typeof value !== 'number') return value;
  if (named.kind === 'date') return isoDate(value);
  return withUnit(String(Number(value.toPrecision(6))), unitOf(named.kind, units));
}

function entry(named: NamedValue): Entry {
  const { kind } = named;
  const plain = isWords(kind) || kind === 'date' || kind === 'count' ? kind : 'number';
  const [metric, us] = [figure(named, 'metric'), figure(named, 'us')];
  return {
    name: `\`${named.name}\``,
    says: named.doc,
    facts: facts(
      { label: valueLabel, text: metric === us ? metric : `${metric}; ${us}` },
      { label: 'allowed', text: allowedWords({ ...named, kind: plain }, 'metric') },
      { label: 'source', text: marked(named.source) },
      { label: 'earlier name', text: named.formerly ?? '' },
    ),
  };
}

/** Named values: assumptions, tables of figures, and what turns units into each other. */
export const valueSection = (): Section => ({
  about: [
    'The whole book uses them; formulas call them by name, or by an earlier name. Change one in its sheet, and every ' +
      'belt follows. A figure whose source says "from memory" or "common practice, no source" has not been looked ' +
      'up: confirm it before you rely on it.',
  ],
  entry: 'name',
  layout: 'table',
  first: valueLabel,
  groups: namedSheets.map(({ declaration, values }) => ({
    title: declaration.name,
    about: `${declaration.purpose}.`,
    entries: values.map(entry),
  })),
});
