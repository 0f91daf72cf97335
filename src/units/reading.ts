import { type DecimalMark, isRefusal, keyboardText, leadingNumber } from './numbers.ts';
import type { QuantityKind, UnitSystem } from './quantities.ts';
import { inSystemUnit, readUnit, systemUnit, unitNamed, unitsFor, unitSuits } from './unit-names.ts';
import type { Unit } from './unit-table.ts';

export { type DecimalMark, decimalShown, isRefusal } from './numbers.ts';
export { inSystemUnit, readUnit, systemUnit, unitNamed, unitsFor, unitSuits } from './unit-names.ts';
export type { Unit } from './unit-table.ts';

/**
 * Quantities from text: "18 in", "457,2 mm", `5'-6"`, "≈ 600", "2 x 75 kW", each as a number in the book's unit or a
 * refusal.
 *
 * For tests: published readings are read.
 */

export interface ReadingOptions {
  /** The system in whose unit the value is wanted. */
  readonly system: UnitSystem;
  /** Unit of a number that names none; the system's own when absent. */
  readonly unit?: Unit | undefined;
  /** Settles names that trades use differently, as "tph"; the wanted system when absent. */
  readonly listSystem?: UnitSystem | undefined;
  readonly decimal?: DecimalMark | undefined;
  /** Running hours in a year, for a life that is written in years. */
  readonly hoursPerYear?: number | undefined;
}

interface Quantified {
  readonly value: number;
  /** The unit that the text names itself. */
  readonly unit?: Unit;
  /** What the value leaves unsaid of the text: that it is approximate, a product, a tolerance. */
  readonly remark?: string;
}

export interface QuantityRefusal {
  readonly given: string;
  readonly reason: string;
  readonly allowed: string;
}

const approximateWords = [
  String.raw`[≈~∼≃]|ca\.?|circa|c\.|approx(?:\.|imately)?|about|around|est\.?|estimated`,
  String.raw`env\.?|environ|ungefähr|etwa|aprox\.?`,
].join('|');
const approximate = new RegExp(String.raw`^(?:${approximateWords})\s*`, 'i');
const approximateAfter = /\s*\(?(?:approx\.?|approximate|est\.?|estimated|ca\.?|nominal|nom\.?)\)?$/i;
const limitWords = [
  String.raw`[<>≤≥]=?|max(?:imum)?\.?|min(?:imum)?\.?|up to|at least|at most|under|over|below|above`,
  'bis|hasta|jusqu',
].join('|');
const limit = new RegExp(`^(?:${limitWords})(?![a-z])`, 'i');
const symbolBefore = /^(?:[Øø⌀∅Φ]|dia(?:m(?:eter)?)?\.?)\s*(?=\d|[.,]\d)/i;
const moneyBefore = /^(€|\$|£|us\$|a\$|c\$|eur|usd|gbp|chf|aud|cad|zar)\s*(?=[\d.,+-])/i;
const rangeAfter = /^\s*(?:-+|\.\.+|…|~|to|bis|à|hasta|tot|until)\s*[\d.,]/i;
const tolerance = /\s*(?:±|\+\s*\/\s*-)\s*[\d.,]+/;
const feet = String.raw`(-?\d+(?:[.,]\d+)?)\s*(?:'|′|’|ft\.?|feet|foot)`;
const inches = String.raw`(\d[^'′’a-z"″”]*?)\s*(?:"|″|”|''|in(?:ch(?:es)?)?\.?)`;
const feetAndInches = new RegExp(String.raw`^${feet}\s*-?\s*${inches}$`, 'i');

/** What may stand in a cell of a kind, for a message. */
export function allowedFor(kind: QuantityKind): string {
  const symbols = [...new Set(unitsFor(kind).map(({ symbol }) => symbol))];
  if (kind === 'number' || kind === 'ratio') return 'a number, or a percentage';
  if (kind === 'count' || kind === 'money' || symbols.length === 0) return 'a number';
  return `a number, alone or with one of the units ${symbols.slice(0, 9).join(', ')}`;
}

/** A text of a kind as a number in the system's unit, or why it is none. */
export function readQuantity(text: string, kind: QuantityKind, options: ReadingOptions): Quantified | QuantityRefusal {
  const refusal = (reason: string): QuantityRefusal => ({ given: text, reason, allowed: allowedFor(kind) });
  let typed = keyboardText(text);
  const remarks: string[] = [];
  for (const sign of [approximate, approximateAfter]) {
    if (!sign.test(typed)) continue;
    typed = typed.replace(sign, '').trim();
    remarks.push('the list gives an approximate value');
  }
  if (limit.test(typed)) return refusal('a limit is given, not a value');
  if (tolerance.test(typed)) {
    typed = typed.replace(tolerance, '');
    remarks.push('the tolerance is ignored');
  }
  typed = typed.replace(symbolBefore, '');
  const currency = moneyBefore.exec(typed);
  if (currency !== null) typed = `${typed.slice(currency[0].length)} ${currency[1] ?? ''}`;

  const value =
    clock(typed, kind) ??
    simple(typed, kind, options) ??
    twoUnits(typed, kind, options) ??
    product(typed, kind, options) ??
    explained(typed, kind, options);
  if (typeof value === 'string') return refusal(value);
  const said = value.remark === undefined ? remarks : [...remarks, value.remark];
  return {
    value: value.value,
    ...(value.unit === undefined ? {} : { unit: value.unit }),
    ...(said.length === 0 ? {} : { remark: said.join('; ') }),
  };
}

/** Hours and minutes, as "6:30". */
function clock(text: string, kind: QuantityKind): Quantified | undefined {
  const parts = kind === 'hours' ? /^(\d{1,4}):([0-5]\d)$/.exec(text) : null;
  return parts === null ? undefined : { value: Number(parts[1]) + Number(parts[2]) / 60 };
}

/**
 * One number with or without a unit; a reason when that number or unit can't be; undefined when the text is more than
 * that.
 */
function simple(text: string, kind: QuantityKind, options: ReadingOptions): Quantified | string | undefined {
  const composed = feetAndInches.exec(text);
  if (composed !== null && kind !== 'angle') {
    const [feet, inches] = [
      simple(`${composed[1] ?? ''} ft`, kind, options),
      simple(`${composed[2] ?? ''} in`, kind, options),
    ];
    if (typeof feet === 'object' && typeof inches === 'object')
      return { ...feet, value: feet.value + (text.startsWith('-') ? -inches.value : inches.value) };
  }
  const number = leadingNumber(text, options.decimal);
  if (isRefusal(number)) return number.reason;
  const name = number.rest.trim();
  if (name === '')
    return sized(
      text,
      number.value,
      options.unit ?? systemUnit(kind, options.system),
      number.fraction,
      false,
      kind,
      options,
    );
  const unit = unitNamed(name, kind, options.listSystem ?? options.system);
  return unit === undefined ? undefined : sized(text, number.value, unit, number.fraction, true, kind, options);
}

function sized(
  text: string,
  value: number,
  unit: Unit | undefined,
  fraction: boolean,
  own: boolean,
  kind: QuantityKind,
  options: ReadingOptions,
): Quantified | string {
  if (fraction && unit?.system === 'metric')
    return `a fraction of a ${unit.symbol} cannot have a slash: it may be two numbers, or inches`;
  if (unit === undefined) return { value };
  if (unit.measure === 'calendar') return running(text, value, unit, options);
  return { value: inSystemUnit(value, unit, kind, options.system), ...(own ? { unit } : {}) };
}

/** A life by the calendar as running hours. */
function running(text: string, value: number, unit: Unit, { hoursPerYear }: ReadingOptions): Quantified | string {
  if (hoursPerYear === undefined || hoursPerYear <= 0)
    return (
      `a life in ${unit.symbol}s counts in running hours only when the hours per year of the same record are ` + `known`
    );
  return {
    value: value * unit.factor * hoursPerYear,
    unit,
    remark: `${/[a-z]/i.test(text) ? text : `${text} ${unit.symbol}s`} at ${hoursPerYear} running hours a year`,
  };
}

/** The same size in two units, as "18 in (457 mm)"; both must say the same within rounding. */
function twoUnits(text: string, kind: QuantityKind, options: ReadingOptions): Quantified | string | undefined {
  const parts = /^(\S.*?[^\d\s/(])\s*(?:\/|\(|=)\s*([\d.,]+\s*[^\d)]+)\)?$/.exec(text);
  const [first, second] = [parts?.[1], parts?.[2]].map((part) =>
    part === undefined ? undefined : simple(part.trim(), kind, options),
  );
  if (typeof first !== 'object' || typeof second !== 'object' || first.unit === undefined || second.unit === undefined)
    return undefined;
  if (Math.abs(first.value - second.value) > 0.02 * Math.abs(first.value))
    return 'two sizes are given, and they differ';
  return { ...first, remark: `given in two units; ${first.unit.symbol} is used` };
}

/** Several equal motors, as "2 x 75 kW": power only, because a belt has one width but may have several drives. */
function product(text: string, kind: QuantityKind, options: ReadingOptions): Quantified | string | undefined {
  const parts = kind === 'power' ? /^(\d{1,2})\s*[x×*]\s*(.+)$/i.exec(text) : null;
  const each = simple(parts?.[2] ?? '', kind, options);
  if (parts === null || typeof each !== 'object') return undefined;
  return { ...each, value: Number(parts[1]) * each.value, remark: `${text} read as a total` };
}

/** Why a text with a number in front is no quantity. */
function explained(text: string, kind: QuantityKind, options: ReadingOptions): string {
  const number = leadingNumber(text, options.decimal);
  if (isRefusal(number)) return number.reason;
  const rest = number.rest.trim();
  if (rangeAfter.test(number.rest)) return 'a range is given, not one value';
  const units = readUnit(rest);
  const [unit] = units;
  if (unit !== undefined && !units.some((item) => unitSuits(item, kind))) {
    const force = kind === 'lineTension' && unit.measure === 'force' ? ': tension is per width of belt' : '';
    return `"${rest}" is a unit of another quantity${force}`;
  }
  return `"${rest}" after the number is not a known unit`;
}
