/** A tape's number read back: "-3 5/16", "919", "3/4". */
export function readLength(text: string): number {
  const [, sign, whole, above, below] = /^(-?)(\d+(?!\/))? ?(?:(\d+)\/(\d+))?$/.exec(text) ?? [];
  const size = Number(whole ?? 0) + (above === undefined ? 0 : Number(above) / Number(below));
  return sign === '-' ? -size : size;
}
