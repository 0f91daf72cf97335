import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Fault, type Value } from '../../src/formula/values.ts';
import { notAsked, verdicts } from '../../src/functions/checks.ts';
import { named } from '../evaluation.ts';
import { decimals, designations } from './arguments.ts';

const verdict = (name: string, ...args: Value[]): unknown => named(name).evaluate(args);
const unknowns = fc.constantFrom<Value>(null, 'a word', true, new Fault('#NUM!', ''));
const worst = (...words: string[]): string =>
  words.toSorted((one, other) => order.indexOf(one) - order.indexOf(other)).at(-1) ?? 'fits';
const order: readonly string[] = verdicts;

describe('a number against its limits', () => {
  test('below the least it fails, within the margin it is tight, above it fits', () => {
    fc.assert(
      fc.property(decimals(1, 1000), decimals(0.01, 0.5), decimals(0.001, 0.999), (least, margin, share) => {
        expect(verdict('LEASTCHECK', least * (1 - share), least, margin)).toBe('fails');
        expect(verdict('LEASTCHECK', least, least, margin)).toBe('tight');
        expect(verdict('LEASTCHECK', least, least, 0)).toBe('fits');
        expect(verdict('LEASTCHECK', least * (1 + margin * share), least, margin)).toBe('tight');
        expect(verdict('LEASTCHECK', least * (1 + margin), least, margin)).toBe('fits');
      }),
    );
  });
  test('the greatest allowed is the least allowed seen from the other side', () => {
    fc.assert(
      fc.property(decimals(-100, 100), decimals(-100, 100), decimals(0, 0.5), (value, limit, margin) => {
        const mirrored: Readonly<Record<string, unknown>> = {
          fails: value > limit ? 'fails' : 'not',
          tight: 'tight',
          fits: 'fits',
        };
        const most = verdict('MOSTCHECK', value, limit, margin);
        expect(most === 'fails').toBe(value > limit);
        expect(mirrored[String(most)]).toBe(most);
        expect(verdict('LEASTCHECK', -value, -limit, -0) === 'fails').toBe(most === 'fails');
        expect(most === 'tight').toBe(value <= limit && value > limit * (1 - margin));
      }),
    );
  });
  test('between two limits it is the worse of both', () => {
    fc.assert(
      fc.property(
        decimals(0, 100),
        decimals(0, 100),
        decimals(0, 100),
        decimals(0, 0.5),
        (value, least, most, margin) => {
          const both = [verdict('LEASTCHECK', value, least, margin), verdict('MOSTCHECK', value, most, margin)].map(
            String,
          );
          expect(verdict('RANGECHECK', value, least, most, margin)).toBe(worst(...both));
        },
      ),
    );
  });
  test('an error, a word or an empty cell anywhere is not known, never a pass', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('LEASTCHECK', 'MOSTCHECK', 'RANGECHECK'),
        fc.nat({ max: 3 }),
        unknowns,
        (name, place, unknown) => {
          const count = Object.keys(named(name).parameters).length;
          const args: Value[] = Array.from({ length: count }, (_, index) => (index === place % count ? unknown : 0.5));
          expect(verdict(name, ...args)).toBe('not known');
        },
      ),
    );
  });
});

describe('the worst of some', () => {
  const words = fc.array(fc.constantFrom(...verdicts), { minLength: 1, maxLength: 30 });

  test('does not depend on their order', () => {
    fc.assert(
      fc.property(words, fc.integer(), (some, seed) => {
        const shuffled = some
          .map((word, index) => ({ word, key: Math.sin(seed + index) }))
          .toSorted((one, other) => one.key - other.key)
          .map(({ word }) => word);
        expect(verdict('WORSTVERDICT', ...shuffled)).toBe(verdict('WORSTVERDICT', ...some));
      }),
    );
  });
  test('fails if any fails, else is not known if any is not, else tight if any is tight', () => {
    fc.assert(
      fc.property(words, (some) => {
        const expected = some.includes('fails')
          ? 'fails'
          : some.includes('not known')
            ? 'not known'
            : some.includes('tight')
              ? 'tight'
              : 'fits';
        expect(verdict('WORSTVERDICT', ...some)).toBe(expected);
        expect(verdict('WORSTVERDICT', ...some.map((word) => word.toUpperCase()))).toBe(expected);
      }),
    );
  });
  test('takes whatever is no verdict for not known, and a check that is not asked for one that fits', () => {
    fc.assert(
      fc.property(unknowns, fc.nat({ max: 24 }), fc.integer({ min: 1, max: 25 }), (unknown, place, count) => {
        const some = Array.from({ length: count }, (_, index) => (index === place % count ? unknown : 'fits'));
        expect(verdict('WORSTVERDICT', ...some)).toBe('not known');
        expect(verdict('WORSTVERDICT', ...some.map((one) => (one === unknown ? notAsked : one)))).toBe('fits');
      }),
    );
  });
  test('is the same of a range as of its cells', () => {
    fc.assert(
      fc.property(words, fc.nat({ max: 30 }), (some, cut) => {
        const [one, other] = [some.slice(0, cut), some.slice(cut)];
        const ranges = [[one], other.map((word) => [word])].filter((range) => (range[0] ?? []).length > 0);
        expect(named('WORSTVERDICT').evaluate(ranges)).toBe(verdict('WORSTVERDICT', ...some));
      }),
    );
  });
});

describe('the carcass in a designation', () => {
  const read = (construction: string): unknown => named('CARCASSMATERIAL').evaluate([construction]);

  test.each([
    ['EP 400/3 4+2', 'EP'],
    ['1000 EP 630/4 6/2 Y', 'EP'],
    ['EP400/3', 'EP'],
    ['ep 400/3', 'EP'],
    ['NN 500/4', 'NN'],
    ['ST 1000 6+4', 'St'],
    ['St1250', 'St'],
    ['800 B 60/4 3+1', 'B'],
    ['P-250/2', 'P'],
    ['EPDM covers, E 315/2', 'E'],
    ['EP', 'EP'],
    ['NN 500/4, was EP 500/4', 'NN'],
  ])('%s is %s', (construction, code) => {
    expect(read(construction)).toBe(code);
  });
  test.each(['PN 500', 'EPDM', '400/3 4+2', 'steel', 'PVC', '-'])('%s names none', (construction) => {
    expect(String(read(construction))).toContain(
      '#N/A CARCASSMATERIAL: construction must hold B, P, NN, E, EP, St as a word or before a number',
    );
  });
  test('is the first word that reads as a code', () => {
    fc.assert(
      fc.property(designations, (construction) => {
        const word = construction.split(' ').find((part) => /^(?:B|P|NN|E|EP|St)(?:$|[0-9/\-,:])/i.test(part));
        const code = word === undefined ? undefined : (/^[a-z]+/i.exec(word)?.[0] ?? '').toUpperCase();
        const found = read(construction);
        expect(found instanceof Fault ? undefined : String(found).toUpperCase()).toBe(code);
      }),
      { numRuns: 500 },
    );
  });
});
