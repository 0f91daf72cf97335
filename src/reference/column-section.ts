import { declarations } from '../../sheets/index.ts';
import { nodesOf, parsed } from '../formula/syntax.ts';
import { functions } from '../functions/index.ts';
import { allowedWords } from '../records/inputs.ts';
import { type Column, isComputed, type SheetDeclaration } from '../sheet/declaration.ts';
import { isWords, type QuantityKind, unitOf } from '../units/quantities.ts';
import { usSpelling } from '../units/spelling.ts';
import type { Entry, Section } from './entry.ts';
import { marked } from './marked-source.ts';

const unitLabel = 'unit: metric; US customary';

const engineering: ReadonlySet<string> = new Set(functions.map(({ name }) => name));

/** The units of both systems, once where they are the same. */
function unitWords(kind: QuantityKind): string {
  const [metric, us] = [unitOf(kind, 'metric'), unitOf(kind, 'us')];
  return metric === us ? metric : `${metric}; ${us}`;
}

/** What may stand in an input, or what a computed column answers; its unit stands beside it. */
function holds({ choices, ...column }: Column): string {
  if (choices !== undefined && 'sheet' in choices) return `a name in the sheet ${choices.sheet}, ${choices.header}`;
  // Bounds of kinds that convert are 0 alone, so they are the same in both systems.
  const kind = isWords(column.kind) || column.kind === 'date' || column.kind === 'count' ? column.kind : 'number';
  const input = { ...column, name: column.header, kind, ...(choices === undefined ? {} : { choices }) };
  const words = column.kind === 'flag' && choices === undefined ? 'yes or no' : allowedWords(input, 'metric');
  return column.percent === true ? `${words}, shown in per cent` : words;
}

/** Where a column has its figures from: its own source, the functions that its formula calls, or the other columns. */
function sourceOf(column: Column): string {
  if (!isComputed(column)) return column.source === undefined ? 'entered' : `entered; ${column.source}`;
  if (column.source !== undefined) return marked(column.source);
  const called = [...nodesOf(parsed(column.formula))].flatMap((node) =>
    node.type === 'call' && engineering.has(node.name) ? [`\`${node.name}\``] : [],
  );
  return called.length === 0 ? 'arithmetic of other columns' : [...new Set(called)].join(', ');
}

/** What it is called elsewhere: by users of US customary units, and in earlier versions, with words of its cells. */
const otherNames = ({ header, formerly, formerWords = {} }: Column): Entry['facts'] => [
  { label: 'in US books', text: usSpelling(header) === header ? '' : usSpelling(header) },
  { label: 'earlier name', text: formerly ?? '' },
  {
    label: 'earlier words',
    text: Object.entries(formerWords)
      .map(([before, now]) => `"${before}" is "${now}"`)
      .join(', '),
  },
];

const entry = (column: Column): Entry => ({
  name: column.header,
  says: column.doc,
  // Empty ones too, so that the table's columns keep this order.
  facts: [
    { label: 'filled', text: isComputed(column) ? 'computed' : 'by you' },
    { label: unitLabel, text: unitWords(column.kind) },
    { label: 'holds', text: holds(column) },
    { label: 'source', text: sourceOf(column) },
    ...otherNames(column),
  ],
});

const group = ({ name, purpose, columns }: SheetDeclaration): Section['groups'][number] => ({
  title: name,
  about: `${purpose}.`,
  entries: columns.map(entry),
});

/** The columns of every sheet. */
export const columnSection = (): Section => ({
  about: [
    'A list of yours may call the columns otherwise: the import knows other names for them, and shows what it takes ' +
      "for what before anything changes. Lists, books and formulas may use a column's earlier name.",
    'The selected cell shows its formula in the formula bar, and in an exported book every computed cell holds it. ' +
      'Where the source names functions, the section Functions has their sources.',
  ],
  entry: 'column',
  layout: 'table',
  first: unitLabel,
  groups: declarations.map(group),
});
