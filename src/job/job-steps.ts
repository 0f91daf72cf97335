import { type StepHeader, stepHeaders, type StepRow } from '../../sheets/work/standard-steps.ts';
import { steps as stepsSheet } from '../../sheets/work/steps.ts';
import { nearest } from '../sheet/nearest.ts';
import { isWords, type UnitSystem } from '../units/quantities.ts';
import { cellName } from '../formula/address.ts';
import { type Caution, cautionKeys, cautions, cautionsFor, cautionsOfWords } from './cautions.ts';
import {
  derivedValues,
  type ShowValue,
  shownValue,
  type StepPlace,
  stepPlaces,
  type StepValue,
  type StepValues,
} from './step-places.ts';

/**
 * Work steps from rows that a user may have edited, added and put in another order, and their texts filled for a belt.
 */

type Variant = 'square' | 'skew';

interface Step {
  /** Its title without capitals, told apart by its kind of joint: the same as long as the title stays. */
  readonly key: string;
  readonly title: string;
  readonly variant: Variant | 'both';
  readonly text: string;
  readonly tools: readonly string[];
  /** Work stops here until the step is signed. */
  readonly holdPoint: boolean;
  readonly signOff: boolean;
  /** Keys of cautions. */
  readonly cautions: readonly string[];
  /** The step is left out where this value is 0. */
  readonly onlyWhen?: string;
  readonly source: string;
  /** The record it was read from, counted from 1. */
  readonly row: number;
}

interface StepFault {
  readonly row: number;
  readonly column: StepHeader;
  readonly given: string;
  readonly reason: string;
  readonly allowed: string;
}

const cellOf = (row: number, column: StepHeader): string =>
  cellName(stepsSheet.name, row - 1, stepHeaders.indexOf(column));

/** A fault as one sentence. */
export const stepFaultText = ({ row, column, given, reason, allowed }: StepFault): string =>
  `${cellOf(row, column)}, ${column}: ${reason}${given === '' ? '' : ` ("${given}" is given)`}; allowed: ${allowed}.`;

export const notKnown = 'not known';

const placePattern = /\{([^{}]*)\}/g;
const variants: readonly Step['variant'][] = ['square', 'skew', 'both'];
const plain = (cell: string | number | boolean | null | undefined): string => String(cell ?? '').trim();
const listed = (cell: string, separator: RegExp): string[] =>
  cell
    .split(separator)
    .map((part) => part.trim())
    .filter((part) => part !== '');

/**
 * Steps in their order, and what could not be read; a row with a fault is read as far as it goes, and left out without
 * title or text.
 */
export function readSteps(
  rows: readonly StepRow[],
  places: readonly StepPlace[] = stepPlaces,
): { readonly steps: readonly Step[]; readonly faults: readonly StepFault[] } {
  const faults: StepFault[] = [];
  const names = places.map(({ name }) => name);
  let order = 0;
  const read = rows.flatMap((cells, index) => {
    const row = index + 1;
    const cell = (column: StepHeader): string => plain(cells[column]);
    const fault = (column: StepHeader, given: string, reason: string, allowed: string): void =>
      void faults.push({ row, column, given, reason, allowed });
    if (Object.values(cells).every((value) => plain(value) === '')) return [];

    const yes = (column: 'Hold point' | 'Sign-off'): boolean => {
      const word = cell(column).toLowerCase();
      if (['yes', 'true'].includes(word)) return true;
      if (!['no', 'false', ''].includes(word))
        fault(column, cell(column), 'it is neither yes nor no, and is taken for yes', 'yes, no');
      return word !== 'no' && word !== 'false' && word !== '';
    };
    const known = (column: StepHeader, given: string, consequence: string): boolean => {
      if (names.includes(given)) return true;
      const near = nearest(given, names);
      fault(
        column,
        given,
        `there is no value of this name, so ${consequence}`,
        near.length > 0 ? `perhaps ${near.join(', ')}` : names.join(', '),
      );
      return false;
    };

    const [title, text] = [cell('Step'), cell('Text')];
    for (const [column, value] of [
      ['Step', title],
      ['Text', text],
    ] as const)
      if (value === '') fault(column, '', 'it is empty, so the row is left out', 'a text');
    for (const [, name = ''] of text.matchAll(placePattern))
      known('Text', name, `the step says "${notKnown}" in its place`);
    if (/[{}]/.test(text.replaceAll(placePattern, '')))
      fault('Text', text, 'a brace stands alone', 'names in braces, as {Cut length}');

    const joint = cell('Joint').toLowerCase();
    const variant = joint === '' ? 'both' : variants.find((word) => word === joint);
    if (variant === undefined)
      fault('Joint', cell('Joint'), 'it is no kind of joint, and is taken for both', variants.join(', '));

    const place = cell('Order');
    if (place !== '' && !Number.isFinite(Number(place)))
      fault('Order', place, 'it is no number, so the step stays after the row above', 'a number');
    else if (place !== '') order = Number(place);

    const named = listed(cell('Cautions'), /[,;]/).map((word) => word.toLowerCase());
    for (const word of named)
      if (!cautionKeys.includes(word))
        fault('Cautions', word, 'there is no caution of this name', cautionKeys.join(', '));
    const onlyWhen = cell('Only when');
    const condition = onlyWhen !== '' && known('Only when', onlyWhen, 'the step always stands') ? { onlyWhen } : {};
    if (title === '' || text === '') return [];
    const step: Step = {
      key: `${title.toLowerCase()}${variant === 'square' || variant === 'skew' ? `, ${variant}` : ''}`,
      title,
      text,
      row,
      variant: variant ?? 'both',
      tools: listed(cell('Tools'), /;/),
      holdPoint: yes('Hold point'),
      signOff: yes('Sign-off'),
      cautions: [
        ...new Set([
          ...named.filter((word) => cautionKeys.includes(word)),
          ...cautionsOfWords(`${text} ${cell('Tools')}`),
        ]),
      ],
      ...condition,
      source: cell('Source') === '' ? 'entered by the user' : cell('Source'),
    };
    return [{ order, step }];
  });
  const firstRow = new Map<string, number>();
  for (const { step } of read) {
    const before = firstRow.get(step.key);
    if (before === undefined) firstRow.set(step.key, step.row);
    else
      faults.push({
        row: step.row,
        column: 'Step',
        given: step.title,
        reason: `${cellOf(before, 'Step')} has the same title for the same kind of joint`,
        allowed: 'a title of its own',
      });
  }
  return { steps: read.toSorted((a, b) => a.order - b.order).map(({ step }) => step), faults };
}

/** A piece of a filled text: plain words, or a value in its place. */
interface TextPiece {
  readonly text: string;
  /** The place it fills; absent for plain words. */
  readonly place?: string;
  readonly known: boolean;
}

export interface FilledStep extends Step {
  /** Counted from 1 within the card. */
  readonly number: number;
  readonly pieces: readonly TextPiece[];
  /** The pieces' text in one. */
  readonly filled: string;
  /** Names of values that are not known. */
  readonly missing: readonly string[];
  readonly notes: readonly Caution[];
}

interface FillOptions {
  readonly variant: Variant;
  readonly units: UnitSystem;
  readonly values: StepValues;
  /** The belt's service, which decides on some cautions; blank when not known. */
  readonly service?: string | undefined;
  readonly places?: readonly StepPlace[];
  readonly show?: ShowValue;
}

const isMissing = (value: StepValue): boolean =>
  value === undefined || value === null || value === '' || (typeof value === 'number' && !Number.isFinite(value));

/**
 * The steps of one kind of joint with a belt's values in their places.
 *
 * A value that is missing, or a name that no place has, reads "not known" and is listed: never a blank. A step that is
 * only for a value stays when that value is not known.
 */
export function filledSteps(
  steps: readonly Step[],
  { variant, units, values, service, places = stepPlaces, show = shownValue }: FillOptions,
): FilledStep[] {
  const all = derivedValues(values);
  const shown = (name: string): TextPiece => {
    const place = places.find((one) => one.name === name);
    const value = all[name];
    if (place === undefined || isMissing(value)) return { text: notKnown, place: name, known: false };
    if (typeof value === 'number' && !isWords(place.kind))
      return { text: show(value, place, units), place: name, known: true };
    return { text: String(value), place: name, known: true };
  };
  const made = steps.filter(
    (step) =>
      (step.variant === 'both' || step.variant === variant) &&
      (step.onlyWhen === undefined || all[step.onlyWhen] !== 0),
  );
  const applying = new Set(
    cautionsFor(service, new Set(made.flatMap((step) => step.cautions))).map(({ caution }) => caution.key),
  );
  return made.map((step, index) => {
    const pieces = step.text
      .split(placePattern)
      .flatMap((part, at): TextPiece[] =>
        at % 2 === 1 ? [shown(part)] : part === '' ? [] : [{ text: part, known: true }],
      );
    const named = new Set(step.cautions.filter((key) => applying.has(key)));
    return {
      ...step,
      number: index + 1,
      pieces,
      filled: pieces.map(({ text }) => text).join(''),
      missing: [...new Set(pieces.flatMap(({ known, place }) => (known || place === undefined ? [] : [place])))],
      notes: cautions.filter(({ key }) => named.has(key)),
    };
  });
}

/** A joint's kind from its skew; undefined when the skew is not known. */
export const variantOf = (skew: number | undefined): Variant | undefined =>
  skew === undefined || !Number.isFinite(skew) ? undefined : skew === 0 ? 'square' : 'skew';
