import { noNumber, standard, type StandardFunction } from './standard-function.ts';

/**
 * The rate of interest of equal payments: where payments, what is borrowed and what is left come to nothing.
 *
 * By Newton's steps from the guess; where they leave the range, by halving between two rates of other signs nearest to
 * it. What is found must fulfil the equation, since steps may settle where it has no root.
 * Source: ECMA-376 Part 1, 18.17.7 (RATE and PV).
 */

interface Loan {
  readonly periods: number;
  readonly payment: number;
  readonly present: number;
  readonly future: number;
  readonly atStart: boolean;
}

const mostRate = 1000;

function balance({ periods, payment, present, future, atStart }: Loan, rate: number): number {
  if (Math.abs(rate) < 1e-12) return present + payment * periods + future;
  const growth = Math.expm1(periods * Math.log1p(rate));
  return present * Math.exp(periods * Math.log1p(rate)) + payment * (atStart ? 1 + rate : 1) * (growth / rate) + future;
}

/** How large the parts of the balance are, against which what is left of it is small or not. */
const scale = (loan: Loan, rate: number): number =>
  balance(
    { ...loan, payment: Math.abs(loan.payment), present: Math.abs(loan.present), future: Math.abs(loan.future) },
    rate,
  );

function bySteps(loan: Loan, guess: number): number | undefined {
  let rate = guess;
  for (let step = 0; step < 60; step += 1) {
    const width = 1e-6 * (1 + Math.abs(rate));
    const slope = (balance(loan, rate + width) - balance(loan, rate - width)) / (2 * width);
    const next = rate - balance(loan, rate) / slope;
    if (!Number.isFinite(next) || next <= -0.9999 || next > mostRate) return undefined;
    if (Math.abs(next - rate) < 1e-14 * (1 + Math.abs(rate))) return next;
    rate = next;
  }
  return rate;
}

function byHalving(loan: Loan, guess: number): number | undefined {
  const rates = Array.from({ length: 400 }, (_, index) => -0.99 + Math.expm1((index / 399) * Math.log(mostRate)));
  const turns = rates.flatMap((rate, index) => {
    const next = rates[index + 1];
    return next !== undefined && balance(loan, rate) * balance(loan, next) <= 0 ? [{ low: rate, high: next }] : [];
  });
  const [nearest] = turns.toSorted((one, other) => Math.abs(one.low - guess) - Math.abs(other.low - guess));
  if (nearest === undefined) return undefined;
  let { low, high } = nearest;
  for (let step = 0; step < 200; step += 1) {
    const middle = (low + high) / 2;
    if (balance(loan, low) * balance(loan, middle) <= 0) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

export const interestFunctions: readonly StandardFunction[] = [
  standard(
    'RATE',
    ['number', 'number', 'number', 'number?', 'number?', 'number?'],
    (periods, payment, present, future = 0, type = 0, guess = 0.1) => {
      if (periods <= 0) throw noNumber(`RATE: the periods must be more than 0; ${periods} was given`);
      const loan = { periods, payment, present, future, atStart: type !== 0 };
      const isRoot = (rate: number | undefined): rate is number =>
        rate !== undefined && Math.abs(balance(loan, rate)) < 1e-9 * scale(loan, rate);
      const found = [bySteps(loan, guess), byHalving(loan, guess)].find(isRoot);
      if (found === undefined) throw noNumber('RATE: no rate was found at which the payments come to nothing');
      return found;
    },
  ),
];
