import { type StepHeader, stepHeaders, type StepRow } from '../../sheets/work/standard-steps.ts';
import { steps as stepsSheet } from '../../sheets/work/steps.ts';
import { cellName } from '../formula/address.ts';
import { nearest } from '../units/nearest.ts';
import { cautionKeys, cautionsOfWords } from './cautions.ts';
import { type StepPlace, stepPlaces } from './step-places.ts';

/** Work steps from rows that a user may have edited, added and put in another order. */

export type Variant = 'square' | 'skew';

export interface Step {
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

/** For tests: cards are searched for it. */
export const notKnown = 'not known';

export const placePattern = /\{([^{}]*)\}/g;
const variants: readonly Step['variant'][] = ['square', 'skew', 'both'];
const plain = (cell: string | number | boolean | null | undefined): string => String(cell ?? '').trim();
const listed = (cell: string, separator: RegExp): string[] =>
  cell
    .split(separator)
    .map((part) => part.trim())
    .filter((part) => part !== '');

/** One row, read as far as it goes; what could not be read is listed. */
class StepRowReader {
  readonly #cells: StepRow;
  readonly #row: number;
  /** What a place may be called. */
  readonly #names: readonly string[];
  readonly #faults: StepFault[];

  constructor(cells: StepRow, row: number, names: readonly string[], faults: StepFault[]) {
    this.#cells = cells;
    this.#row = row;
    this.#names = names;
    this.#faults = faults;
  }

  get isBlank(): boolean {
    return Object.values(this.#cells).every((value) => plain(value) === '');
  }

  #cell(column: StepHeader): string {
    return plain(this.#cells[column]);
  }

  #fault(column: StepHeader, given: string, reason: string, allowed: string): void {
    this.#faults.push({ row: this.#row, column, given, reason, allowed });
  }

  #yes(column: 'Hold point' | 'Sign-off'): boolean {
    const word = this.#cell(column).toLowerCase();
    if (['yes', 'true'].includes(word)) return true;
    if (['no', 'false', ''].includes(word)) return false;
    this.#fault(column, this.#cell(column), 'this is neither yes nor no, and is read as yes', 'yes, no');
    return true;
  }

  #known(column: StepHeader, given: string, consequence: string): boolean {
    if (this.#names.includes(given)) return true;
    const near = nearest(given, this.#names);
    this.#fault(
      column,
      given,
      `there is no value with this name, so ${consequence}`,
      near.length > 0 ? `for example ${near.join(', ')}` : this.#names.join(', '),
    );
    return false;
  }

  #words(): { readonly title: string; readonly text: string } {
    const [title, text] = [this.#cell('Step'), this.#cell('Text')];
    if (title === '') this.#fault('Step', '', 'the title is empty, so the row is left out', 'a text');
    if (text === '') this.#fault('Text', '', 'the text is empty, so the row is left out', 'a text');
    for (const [, name = ''] of text.matchAll(placePattern)) this.#known('Text', name, `the step prints "${notKnown}"`);
    if (/[{}]/.test(text.replaceAll(placePattern, '')))
      this.#fault('Text', text, 'a brace has no partner', 'names in braces, such as {Cut length}');
    return { title, text };
  }

  #variant(): Step['variant'] {
    const joint = this.#cell('Joint').toLowerCase();
    const variant = joint === '' ? 'both' : variants.find((word) => word === joint);
    if (variant === undefined)
      this.#fault(
        'Joint',
        this.#cell('Joint'),
        'this is not a kind of joint, and is read as both',
        variants.join(', '),
      );
    return variant ?? 'both';
  }

  /** The number that it stands by; that of the row above when it has none. */
  #order(above: number): number {
    const place = this.#cell('Order');
    if (place === '') return above;
    if (Number.isFinite(Number(place))) return Number(place);
    this.#fault('Order', place, 'this is not a number, so the step follows the row above', 'a number');
    return above;
  }

  /** Those that it names, and those that its own words call for. */
  #cautions(text: string): string[] {
    const named = listed(this.#cell('Cautions'), /[,;]/).map((word) => word.toLowerCase());
    for (const word of named)
      if (!cautionKeys.includes(word))
        this.#fault('Cautions', word, 'there is no caution with this name', cautionKeys.join(', '));
    const known = named.filter((word) => cautionKeys.includes(word));
    return [...new Set([...known, ...cautionsOfWords(`${text} ${this.#cell('Tools')}`)])];
  }

  #condition(): Pick<Step, 'onlyWhen'> {
    const onlyWhen = this.#cell('Only when');
    return onlyWhen !== '' && this.#known('Only when', onlyWhen, 'the step is always printed') ? { onlyWhen } : {};
  }

  /** The step, none without title or text, and the number that it stands by. */
  read(above: number): { readonly order: number; readonly step: Step | undefined } {
    const { title, text } = this.#words();
    const variant = this.#variant();
    const order = this.#order(above);
    const [cautionWords, condition] = [this.#cautions(text), this.#condition()];
    if (title === '' || text === '') return { order, step: undefined };
    const source = this.#cell('Source');
    const step: Step = {
      key: `${title.toLowerCase()}${variant === 'both' ? '' : `, ${variant}`}`,
      title,
      text,
      row: this.#row,
      variant,
      tools: listed(this.#cell('Tools'), /;/),
      holdPoint: this.#yes('Hold point'),
      signOff: this.#yes('Sign-off'),
      cautions: cautionWords,
      ...condition,
      source: source === '' ? 'entered by the user' : source,
    };
    return { order, step };
  }
}

/** Steps that have the title of one before them. */
function sameTitles(steps: readonly Step[]): StepFault[] {
  const firstRow = new Map<string, number>();
  return steps.flatMap(({ key, row, title }): StepFault[] => {
    const before = firstRow.get(key);
    if (before === undefined) {
      firstRow.set(key, row);
      return [];
    }
    return [
      {
        row,
        column: 'Step',
        given: title,
        reason: `${cellOf(before, 'Step')} has the same title for the same kind of joint`,
        allowed: 'a different title',
      },
    ];
  });
}

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
  const read: { readonly order: number; readonly step: Step }[] = [];
  let above = 0;
  for (const [index, cells] of rows.entries()) {
    const reader = new StepRowReader(cells, index + 1, names, faults);
    if (reader.isBlank) continue;
    const { order, step } = reader.read(above);
    above = order;
    if (step !== undefined) read.push({ order, step });
  }
  faults.push(...sameTitles(read.map(({ step }) => step)));
  return { steps: read.toSorted((a, b) => a.order - b.order).map(({ step }) => step), faults };
}

/** A joint's kind from its skew; undefined when the skew is not known. */
export const variantOf = (skew: number | undefined): Variant | undefined =>
  skew === undefined || !Number.isFinite(skew) ? undefined : skew === 0 ? 'square' : 'skew';
