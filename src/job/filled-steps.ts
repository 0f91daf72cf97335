import { isWords, type UnitSystem } from '../units/quantities.ts';
import { type Caution, cautions, cautionsFor } from './cautions.ts';
import { notKnown, placePattern, type Step, type Variant } from './job-steps.ts';
import {
  derivedValues,
  type ShowValue,
  shownValue,
  type StepPlace,
  stepPlaces,
  type StepValue,
  type StepValues,
} from './step-places.ts';

/** Work steps with their texts filled for a belt. */

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
