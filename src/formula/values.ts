/** What a cell or an argument can hold. Empty is null; a date is its serial number in the 1900 system. */
export type Value = number | string | boolean | null | Fault;

/** A rectangle of values, row by row. */
export type Matrix = readonly (readonly Value[])[];

export type FaultCode =
  '#VALUE!' | '#NUM!' | '#N/A' | '#DIV/0!' | '#REF!' | '#NAME?' | '#CYCLE!' | '#SPILL!' | '#ERROR!';

/** A cell error with a message for the planner: which argument, what was given, what is allowed. */
export class Fault {
  readonly code: FaultCode;
  readonly message: string;
  constructor(code: FaultCode, message: string) {
    this.code = code;
    this.message = message;
  }
  toString(): string {
    return this.message === '' ? this.code : `${this.code} ${this.message}`;
  }
}

export const isFault = (value: unknown): value is Fault => value instanceof Fault;

/** A value as a number; undefined for anything else. */
export const numberIn = (value: Value | undefined): number | undefined =>
  typeof value === 'number' ? value : undefined;

/**
 * A value as a text without blanks around it, as people call things: a name may be a number. '' for none and errors.
 */
export const textIn = (value: Value | undefined): string =>
  value === null || value === undefined || isFault(value) ? '' : String(value).trim();

/** A value as a message quotes it. */
export function quoted(value: unknown): string {
  if (value === null || value === undefined) return 'nothing (an empty cell)';
  if (value instanceof Fault) return value.code;
  if (Array.isArray(value)) return value.map(quoted).join(', ');
  return typeof value === 'string' ? `the text "${value}"` : String(value);
}

/** What is entered into a cell: a text starting with "=" is a formula, any other text stays a text. */
export type Content = number | string | boolean | null;

export const isFormula = (content: Content | Fault): content is string =>
  typeof content === 'string' && content.startsWith('=') && content.length > 1;
