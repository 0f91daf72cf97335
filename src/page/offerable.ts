import { standardGroups } from '../formula/standard-functions.ts';
import { parameterAt } from '../formula/parameter.ts';
import { functions } from '../functions/index.ts';
import { namedSheets } from '../../sheets/index.ts';
import { columnUnit } from '../sheet/header.ts';
import { compiledSheets, namedSheetOf } from '../workbook/declared.ts';
import type { Offerable, OfferedFunction } from '../workbook/formula-offers.ts';
import type { KnownNames } from '../workbook/typed-formula.ts';
import type { Desk } from './desk.ts';

/** All that a formula of the open book may name. */

let all: readonly OfferedFunction[] | undefined;

function everyFunction(): readonly OfferedFunction[] {
  all ??= [
    ...functions.map(({ name, summary, parameters }) => ({
      name,
      does: summary,
      parameters: Object.entries(parameters).map(([parameter, { doc }]) => ({ name: parameter, doc })),
      rest: Object.values(parameters).some(({ rest }) => rest === true),
    })),
    ...standardGroups.flatMap(({ functions: described }) =>
      described.map(({ name, says, takes, repeats }) => ({
        name,
        does: says,
        parameters: takes.map((taken) => ({ name: taken.name, doc: '' })),
        rest: repeats,
      })),
    ),
  ].toSorted((one, other) => (one.name < other.name ? -1 : 1));
  return all;
}

/** The parameter that an argument is for: the last one again where it may be given more than once. */
export function parameterOf({ name, parameters, rest }: OfferedFunction, argument: number): number | undefined {
  const declared = functions.find((definition) => definition.name === name);
  const named = declared === undefined ? undefined : parameterAt(declared.parameters, argument)?.[0];
  if (named !== undefined) return parameters.findIndex((parameter) => parameter.name === named);
  if (argument < parameters.length) return argument;
  return rest ? parameters.length - 1 : undefined;
}

const meanings: ReadonlyMap<string, string> = new Map(
  namedSheets.flatMap(({ values }) => values.map(({ name, doc }) => [name, doc] as const)),
);

function valueNames({ book }: Desk): string[] {
  return book.state.sheets.flatMap(({ name, rows }) =>
    namedSheetOf(name) === undefined
      ? []
      : rows.flatMap(({ cells }) => (typeof cells[0] === 'string' && cells[0] !== '' ? [cells[0]] : [])),
  );
}

export function offerableIn(desk: Desk): Offerable {
  const { book } = desk;
  return {
    functions: everyFunction(),
    values: valueNames(desk).map((name) => ({ name, does: meanings.get(name) ?? 'a named value' })),
    sheets: book.state.sheets.map(({ name }) => ({
      name,
      does: compiledSheets.get(name)?.declaration.purpose ?? 'a free sheet of your own',
      columns: book.columns(name).map(({ header, doc, ...column }) => {
        const unit = columnUnit(column, book.units);
        return { name: header, does: `${unit === '' ? '' : `${unit}: `}${doc}` };
      }),
    })),
    sheet: desk.typing?.sheet ?? desk.sheet,
  };
}

export const knownNames = (desk: Desk): KnownNames => ({
  functions: everyFunction().map(({ name }) => name),
  values: valueNames(desk),
});
