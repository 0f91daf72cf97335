/**
 * A number as a text, as spreadsheet programs join it to others: 15 significant digits, so that 0.1+0.2 reads 0.3.
 *
 * Plain digits up to 1E+20 and down to 0.0001, powers of ten beyond. Source: ECMA-376 Part 1, 18.8.30 (General), and
 * from memory where the powers begin.
 */
export function numberText(value: number): string {
  if (!Number.isFinite(value)) return String(value);
  const size = Math.abs(value);
  if (size === 0) return '0';
  const digits = size.toExponential(14);
  const [mantissa = '', power = '0'] = digits.split('e');
  const exponent = Number(power);
  const sign = value < 0 ? '-' : '';
  if (exponent > 20 || exponent < -5) {
    const short = mantissa.replace(/\.?0+$/, '');
    return `${sign}${short}E${exponent < 0 ? '-' : '+'}${String(Math.abs(exponent)).padStart(2, '0')}`;
  }
  const figures = mantissa.replace('.', '');
  const text =
    exponent < 0
      ? `0.${'0'.repeat(-exponent - 1)}${figures}`
      : exponent >= figures.length - 1
        ? `${figures}${'0'.repeat(exponent - figures.length + 1)}`
        : `${figures.slice(0, exponent + 1)}.${figures.slice(exponent + 1)}`;
  return `${sign}${text.includes('.') ? text.replace(/\.?0+$/, '') : text}`;
}
