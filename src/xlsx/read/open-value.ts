import { dateSerial } from './date-serial.ts';
import type { RawCell } from './raw-book.ts';
import type { Attributes } from './xml-part.ts';

/** A cell of an OpenDocument sheet, and what it holds. Source: OASIS OpenDocument 1.2, part 1, 19.385 (value types). */
export interface OpenCell {
  readonly attributes: Attributes;
  readonly repeated: number;
  lines: string[];
  comment: string;
}

/** How often an element stands for itself. */
export const repeats = (attributes: Attributes, name: string): number => {
  const count = Number(attributes[name] ?? '1');
  return Number.isInteger(count) && count > 0 ? count : 1;
};

const clock = /^PT(?:(\d+)H)?(?:(\d+)M)?(?:(\d+(?:\.\d+)?)S)?$/;

/** The format that shows a number as the cell does, where that tells a unit or leading zeros. */
function shownFormat(text: string, value: number): { readonly format?: string } {
  if (/^0\d+$/.test(text) && Number(text) === value) return { format: '0'.repeat(text.length) };
  const unit = /^[+-]?[\d.,\s\u00a0]*\d\s*([^\d\s.,+-][^\d"]*[²³]?)$/.exec(text)?.[1];
  return unit === undefined || unit === 'E' ? {} : { format: unit === '%' ? '0%' : `0" ${unit}"` };
}

/** A cell's value, or undefined when it shows nothing. */
export function valueOf(
  { attributes, lines }: OpenCell,
  styled: string | undefined,
): Pick<RawCell, 'value' | 'date' | 'format' | 'error'> | undefined {
  const text = attributes['office:string-value'] ?? lines.join('\n');
  const type = attributes['calcext:value-type'] ?? attributes['office:value-type'];
  const number = Number(attributes['office:value']);
  switch (type) {
    case 'error':
      return { value: null, error: text.startsWith('#') ? text : '#VALUE!' };
    case 'float':
    case 'currency':
    case 'percentage':
      if (attributes['office:value'] === undefined || !Number.isFinite(number)) break;
      if (type === 'percentage') return { value: number, format: styled?.includes('%') === true ? styled : '0%' };
      return { value: number, ...(styled === undefined ? shownFormat(text.trim(), number) : { format: styled }) };
    case 'boolean':
      return { value: attributes['office:boolean-value'] === 'true' };
    case 'date': {
      const serial = dateSerial(attributes['office:date-value'] ?? '');
      if (serial !== undefined) return { value: serial, date: true, format: 'yyyy-mm-dd' };
      break;
    }
    case 'time': {
      const [, hours = '0', minutes = '0', seconds = '0'] = clock.exec(attributes['office:time-value'] ?? '') ?? [];
      return { value: (Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds)) / 86_400, date: true };
    }
    default:
  }
  return text === '' ? undefined : { value: text };
}
