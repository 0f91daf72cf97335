/**
 * Numbers as people write them: separators of thousands, decimal point or comma, fractions, powers of ten.
 *
 * "1,234" alone may be a thousand or one and a bit. It is never guessed: the decimal mark is told by the caller, or
 * the text itself must be unambiguous.
 */
export type DecimalMark = 'point' | 'comma';

interface WrittenNumber {
  readonly value: number;
  /** Written with a fraction bar, as "1 1/2". */
  readonly fraction: boolean;
  /** What follows the number in the text. */
  readonly rest: string;
}

export interface NumberRefusal {
  readonly reason: string;
}

export const isRefusal = <T extends object>(reading: T | NumberRefusal): reading is NumberRefusal =>
  'reason' in reading;

const vulgar: Readonly<Record<string, string>> = {
  '¼': '1/4',
  '½': '1/2',
  '¾': '3/4',
  '⅐': '1/7',
  '⅑': '1/9',
  '⅒': '1/10',
  '⅓': '1/3',
  '⅔': '2/3',
  '⅕': '1/5',
  '⅖': '2/5',
  '⅗': '3/5',
  '⅘': '4/5',
  '⅙': '1/6',
  '⅚': '5/6',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

/** A text with spaces, dashes and fraction signs of print as those of a keyboard. */
export const keyboardText = (text: string): string => (/^[ -~]*$/.test(text) ? text.trim() : ofPrint(text));

const ofPrint = (text: string): string =>
  text
    .replaceAll(/[\u00a0\u2000-\u200a\u202f\u205f\u3000]/g, ' ')
    .replaceAll(/[\u2212\u2010-\u2013]/g, '-')
    .replaceAll('\u2044', '/')
    .replaceAll(
      /(\d?)\s*([¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])/g,
      (_, digit: string, sign: string) => `${digit}${digit === '' ? '' : ' '}${vulgar[sign] ?? sign}`,
    )
    .trim();

const mixedFraction = String.raw`(\d+)(?:\s+|-)(\d+)\/(\d+)`;
const fraction = String.raw`(\d+)\/(\d+)`;
const digitsAndMarks = String.raw`((?:\d{1,3}(?:[ '’]\d{3})+|\d+)(?:[.,]\d+)*|[.,]\d+)`;
const powerOfTen = String.raw`(?:e([+-]?\d{1,3})(?![\w.]))?`;
const written = new RegExp(String.raw`^([+-]?)\s*(?:${mixedFraction}|${fraction}|${digitsAndMarks}${powerOfTen})`, 'i');

const grouped = { point: /^[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?$/, comma: /^[1-9]\d{0,2}(?:\.\d{3})+(?:,\d+)?$/ } as const;
const ungrouped = { point: /^\d*(?:\.\d+)?$/, comma: /^\d*(?:,\d+)?$/ } as const;
const other = { point: 'comma', comma: 'point' } as const;

const suits = (digits: string, mark: DecimalMark): boolean =>
  grouped[mark].test(digits) || ungrouped[mark].test(digits);

/** A group of three after one separator: thousands or decimals, nothing tells. A leading zero tells. */
const eitherWay = (digits: string): boolean => /^[1-9]\d{0,2}[.,]\d{3}$/.test(digits);

/** Which decimal mark a run of digits and separators shows; undefined when it shows neither. */
function markOf(digits: string): DecimalMark | undefined {
  if (!/[.,]/.test(digits) || eitherWay(digits)) return undefined;
  return suits(digits, 'point') ? 'point' : suits(digits, 'comma') ? 'comma' : undefined;
}

const valueOf = (digits: string, mark: DecimalMark, power = '0'): number =>
  Number(`${mark === 'point' ? digits.replaceAll(',', '') : digits.replaceAll('.', '').replace(',', '.')}e${power}`);

/** The decimal mark that a text's first number shows, undefined when it has no number or would do in either. */
export function decimalShown(text: string): DecimalMark | undefined {
  const digits = written.exec(keyboardText(text))?.[7];
  return digits === undefined ? undefined : markOf(digits.replaceAll(/[ '’]/g, ''));
}

/** The number a text begins with, and the rest of the text; a refusal when there is none or it can be read two ways. */
export function leadingNumber(text: string, decimal?: DecimalMark): WrittenNumber | NumberRefusal {
  const typed = keyboardText(text);
  const found = written.exec(typed);
  if (found === null) return { reason: 'it does not begin with a number' };
  const [whole = '', sign, mixed, above, below, numerator, denominator, digits, power] = found;
  const rest = typed.slice(whole.length);
  const signed = (value: number, fraction: boolean): WrittenNumber => ({
    value: sign === '-' ? -value : value,
    fraction,
    rest,
  });
  if (digits === undefined) {
    const upper = Number(above ?? numerator);
    const lower = Number(below ?? denominator);
    if (!isFraction(upper, lower))
      return {
        reason: `"${whole.trim()}" is two numbers with a slash between them, not a fraction of an inch or foot`,
      };
    return signed(Number(mixed ?? 0) + upper / lower, true);
  }
  const bare = digits.replaceAll(/[ '’]/g, '');
  const mark = decimal ?? markOf(bare);
  if (mark === undefined && eitherWay(bare)) {
    const [point, comma] = [valueOf(bare, 'point'), valueOf(bare, 'comma')];
    return {
      reason:
        `"${digits}" is ${point} with a decimal point and ${comma} with a decimal comma, and no other cell ` +
        `decides: select the decimal mark of the list`,
    };
  }
  if (!suits(bare, mark ?? 'point')) {
    const reason =
      mark !== undefined && suits(bare, other[mark])
        ? `"${digits}" is not a number with a decimal ${mark}, which the list uses or you chose`
        : `the points and commas of "${digits}" do not form a number`;
    return { reason };
  }
  const value = valueOf(bare, mark ?? 'point', power);
  return Number.isFinite(value) ? signed(value, false) : { reason: `"${whole.trim()}" is too large to be a number` };
}

/** A proper fraction in lowest terms, as rulers have them. "600/650", "630/4" and a belt's covers "4/2" are not. */
function isFraction(upper: number, lower: number): boolean {
  if (upper < 1 || upper >= lower || lower > 128) return false;
  let [a, b] = [lower, upper];
  while (b > 0) [a, b] = [b, a % b];
  return a === 1;
}

/** A text that is one number and nothing else. For tests: published readings are read. */
export function readNumber(text: string, options: { readonly decimal?: DecimalMark } = {}): number | NumberRefusal {
  const number = leadingNumber(text, options.decimal);
  if (isRefusal(number)) return number;
  return number.rest.trim() === '' ? number.value : { reason: `"${number.rest.trim()}" follows the number` };
}
