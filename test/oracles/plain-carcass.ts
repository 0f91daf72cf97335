/** The smallest pulley of a carcass, walked along the printed series by use and group. */

const pulleys = [100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1400, 1600, 1800, 2000];
/** The next one down in the printed columns, where it is not the entry before. */
const below: Readonly<Record<number, number>> = { 1600: 1250, 1800: 1400, 2000: 1600 };
const factors: Readonly<Record<string, number>> = { B: 80, P: 90, NN: 90, E: 108, EP: 108, ST: 145 };

/** Steps down by the use of the belt's rating in per cent; one up beyond all of it. */
function stepsDown(use: number, group: string): number {
  const column = ['A', 'B', 'C'].indexOf(group.toUpperCase());
  if (use > 100) return column - 1;
  if (use > 60) return column;
  return use > 30 ? column + 1 : column === 2 ? 3 : 2;
}

export function carcassPulley(construction: string, carcass: number, use: number, group: string): number {
  const code = /(?:^| )(st|ep|nn|e|p|b)(?=[ 0-9/,:-]|$)/i.exec(construction)?.[1]?.toUpperCase() ?? '';
  const least = carcass * (factors[code] ?? Number.NaN);
  const use9 = Math.round(use * 1e7) / 1e7;
  if (!(use9 > 0)) return Number.NaN;
  const place = pulleys.findIndex((pulley) => pulley >= Math.round(least * 1e9) / 1e9);
  if (place < 0) return Number.NaN;
  const steps = stepsDown(use9, group);
  if (steps < 0) return pulleys[place + 1] ?? Number.NaN;
  let pulley = pulleys[place] ?? Number.NaN;
  for (let step = 0; step < steps; step += 1)
    pulley = below[pulley] ?? pulleys[Math.max(0, pulleys.indexOf(pulley) - 1)] ?? pulley;
  return pulley;
}
