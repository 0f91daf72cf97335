import { standardSteps, type StepRow } from '../../sheets/work/standard-steps.ts';
import { supersededSteps } from '../../sheets/work/superseded-steps.ts';
import { belts } from '../../sheets/belts/index.ts';
import { plateSeries } from '../../sheets/series/plate-series.ts';
import { presentHeader } from '../workbook/earlier-names.ts';
import { placePattern } from './job-steps.ts';
import { stepPlaces } from './step-places.ts';

/** The steps of a book of an earlier version, led to what this version calls a belt's values and says in its steps. */

const placeNames: ReadonlySet<string> = new Set(stepPlaces.map(({ name }) => name));

/** A value's present name; a name that is none, or still is one, stays as it is. */
const presentPlace = (name: string): string =>
  placeNames.has(name)
    ? name
    : ([belts, plateSeries].map((sheet) => presentHeader(sheet.name, name)).find((now) => now !== undefined) ?? name);

const presentText = (text: string): string =>
  text.replaceAll(placePattern, (_, name: string) => `{${presentPlace(name)}}`);

const replaced = new Map<string, StepRow>(
  supersededSteps.flatMap(({ text, now }) => {
    const row = standardSteps.find((step) => step.Step === now);
    return row === undefined ? [] : [[presentText(text), row] as const];
  }),
);

/** The standard step for one that holds an earlier version's text unchanged; undefined for any other. */
export const standardInstead = ({ Text: text }: StepRow): StepRow | undefined =>
  replaced.get(presentText(String(text ?? '').trim()));

/**
 * A step as this version prints it: the standard one where an earlier version's text is unchanged, otherwise the user's
 * own under the present names of the values that it asks for.
 */
export function presentStep(row: StepRow): StepRow {
  const standard = standardInstead(row);
  if (standard !== undefined) return standard;
  const { Text: text, 'Only when': onlyWhen } = row;
  return {
    ...row,
    ...(typeof text === 'string' ? { Text: presentText(text) } : {}),
    ...(typeof onlyWhen === 'string' ? { 'Only when': presentPlace(onlyWhen.trim()) } : {}),
  };
}
