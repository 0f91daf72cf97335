import { groupedText } from '../units/shown-mark.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { beltColumn, beltTitle } from '../records/belt.ts';
import { amount, listed, rounded } from '../sheet/words.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { streamName } from './drawn-values.ts';
import { quantile, shareMargin } from './quantiles.ts';
import type { Share } from './simulated-part.ts';
import type { SimulatedBelt, Simulation } from './simulation.ts';

/** What was simulated, in sentences for a planner. */

/** A share in words: "93 of 100"; nearly all and hardly any in more digits. */
export function chanceWords(count: number, draws: number): string {
  if (count === draws) return `all ${groupedText(draws)} draws`;
  if (count === 0) return `none of ${groupedText(draws)} draws`;
  const share = count / draws;
  return share > 0.99 || share < 0.01 ? `${rounded(share * 1000, 0)} of 1000` : `${rounded(share * 100, 0)} of 100`;
}

/** Of 100 cases the 90 in the middle. */
const [fifth, ninetyFifth] = [0.05, 0.95];

function rangeWords(header: BeltHeader, drawn: Float64Array, units: UnitSystem): string {
  if (drawn.length === 0) return `${header}: not known in any draw`;
  const shown = (share: number): string => amount(quantile(drawn, share), beltColumn(header), units);
  return `${header}: ${shown(fifth)} to ${shown(ninetyFifth)} in 90 of 100, ${shown(0.5)} in the middle`;
}

/** Shares of the spread that are worth a word. */
const smallestShare = 0.05;

/** Shares in words; low, likely and high figures of one rate, which are wrong together, are told as one. */
export function shareWords(shares: readonly Share[], least: number = smallestShare): string[] {
  const rates = new Map<string, Share[]>();
  for (const one of shares) {
    if (one.share < least) continue;
    const rate = streamName(one.name);
    rates.set(rate, [...(rates.get(rate) ?? []), one]);
  }
  return [...rates].flatMap(([rate, [first, ...others]]) =>
    first === undefined ? [] : [`${others.length === 0 ? first.name : rate} (${rounded(first.share * 100, 0)} %)`],
  );
}

/** A belt: how often it passes, which checks may fail, and where its figures lie. */
export function simulatedLines({ belt, passes, figures, shares }: SimulatedBelt, draws: number): string[] {
  const whole = passes.get('Verdict') ?? 0;
  const unsure = [...passes]
    .filter(([header, count]) => header !== 'Verdict' && count < draws)
    .toSorted((one, other) => one[1] - other[1]);
  const margin = shareMargin(whole / draws, draws) * 100;
  return [
    `${beltTitle(belt.name)} passes in ${chanceWords(whole, draws)}` +
      `${whole > 0 && whole < draws ? ` (give or take ${rounded(margin, margin < 1 ? 1 : 0)})` : ''}.`,
    ...(unsure.length === 0
      ? []
      : [
          `  Passing: ${listed(
            unsure.map(([header, count]) => `${header} in ${chanceWords(count, draws)}`),
            'and',
            8,
          )}.`,
        ]),
    ...[...figures].flatMap(([header, drawn]) => {
      const from = shareWords(shares.get(header) ?? []);
      return [
        `  ${rangeWords(header, drawn, belt.units)}.`,
        ...(from.length === 0 ? [] : [`    Its spread goes with ${listed(from)}.`]),
      ];
    }),
  ];
}

/** The fleet: how many belts fail, and sums of the figures. */
export function fleetLines({ draws, failing, totals, belts }: Simulation, units: UnitSystem): string[] {
  const expected = failing.reduce((sum, count) => sum + count, 0) / draws;
  return [
    `Of ${belts.length} belts ${rounded(expected, 1)} are expected to fail, ` +
      `${rounded(quantile(failing, fifth), 0)} to ` +
      `${rounded(quantile(failing, ninetyFifth), 0)} in 90 of 100.`,
    ...[...totals].map(([header, drawn]) => `All belts, ${rangeWords(header, drawn, units)}.`),
  ];
}
