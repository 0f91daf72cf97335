import { carcassCodes } from './designation.ts';

/**
 * The earliest code in a text, by its place among the codes. Every code is looked for with every follower, in a row for
 * each. The first column is a word that no designation holds: it is found only where it is added, behind the text, and
 * so stands for "none".
 */
export function earliestCode(text: string, followers: readonly string[]): string {
  const searched =
    `{"||",${carcassCodes.map((code) => `" ${code.toUpperCase()}"`).join(',')}}&` +
    `{${followers.map((follower) => `"${follower}"`).join(';')}}`;
  const places = carcassCodes.map((_, index) => index + 1).join(',');
  return (
    `CHOOSE(1+MOD(SUMPRODUCT(MIN(SEARCH(${searched}," "&${text}&" "&${searched})*10+{0,${places}})),10),` +
    `NA(),${carcassCodes.map((code) => `"${code}"`).join(',')})`
  );
}
