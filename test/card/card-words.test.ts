import { describe, expect, test } from 'vitest';
import { cardSections } from '../../src/card/card-sections.ts';
import type { Section } from '../../src/card/section.ts';
import { type JobCard, jobCard } from '../../src/card/job-card.ts';
import { shopDrawing } from '../../src/drawing/shop-drawing.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import type { BeltHeader } from '../../sheets/index.ts';

/** What a card says in words and figures to one who works by it, against the book it is made from. */

const demo = new Workbook(demoBook('metric'));
const all = [...demo.sheet('Belts').rows.keys()].map((record) => ({ record, card: jobCard(demo, record) }));
const figure = (record: number, header: BeltHeader): number => Number(demo.read('Belts', record, header));
const notes = (card: JobCard): string =>
  cardSections(card)
    .flatMap((section) => (section.type === 'note' ? [section.text] : []))
    .join('\n');
const stepsTable = (card: JobCard): Extract<Section, { readonly type: 'table' }> => {
  const table = cardSections(card).find(
    (section) => section.type === 'table' && section.columns.some(({ title }) => title === 'Done by, time'),
  );
  if (table?.type !== 'table') throw new Error('the card has no steps');
  return table;
};

test.each([
  ['right', 'left'],
  ['left', 'right'],
] as const)('the hand is %s in every place of a card, and %s in none', (hand, other) => {
  const book = new Workbook(demoBook('metric'));
  book.edit([{ sheet: 'Belts', record: 0, column: book.column('Belts', 'Skew hand'), content: hand }]);
  const card = jobCard(book, 0);
  expect(card.heading.find(({ name }) => name === 'Joint')?.value).toContain(`${hand}-hand`);
  const step = card.steps.find(({ title }) => title === 'Mark the skew')?.filled;
  expect(step).toContain(`meets the ${hand} edge at the marked corner`);
  expect(notes(card)).toContain(`from the marked corner, on the ${hand} edge`);
  if (card.joint === undefined) throw new Error('no joint');
  const drawing = shopDrawing(card.joint, card)
    .marks.flatMap((mark) => (mark.type === 'text' ? [mark.text] : []))
    .join(' ');
  expect(drawing).toContain(`${hand}-hand skew joint: its marked corner on the ${hand} edge`);
  // The drawing has the travel to its right, and on the return run both are named.
  expect(
    `${step} ${notes(card)} ${drawing}`.replace('left and right are swapped', '').replace('travel to the right', ''),
  ).not.toMatch(new RegExp(`\\b${other}\\b`));
});

describe('figures in the words', () => {
  test('holes to punch in one end are half of those in both', () => {
    for (const { record, card } of all) {
      const punching = card.steps.find(({ title }) => title === 'Punch the holes')?.filled;
      expect(punching, card.belt).toContain(`punch ${figure(record, 'Holes') / 2} holes, diameter`);
      expect(card.holes.filter(({ end }) => end === 'trailing')).toHaveLength(figure(record, 'Holes') / 2);
    }
  });

  test('packs hold what is counted, and one fewer would not', () => {
    let several = 0;
    for (const { card } of all) {
      for (const { count, remark, item } of card.parts) {
        const [, packs, each] = /^(\d+) packs? of (\d+)$/.exec(remark) ?? [];
        if (packs === undefined) continue;
        expect(Number(packs) * Number(each), `${card.belt}, ${item}`).toBeGreaterThanOrEqual(Number(count));
        expect((Number(packs) - 1) * Number(each), `${card.belt}, ${item}`).toBeLessThan(Number(count));
        if (Number(packs) > 1) several += 1;
      }
    }
    expect(several).toBeGreaterThan(5);
  });

  test('lost production is the downtime, the capacity and its share of use', () => {
    const told = all.flatMap(({ record, card }) => {
      const [, amount] =
        /Lost production in the mean downtime: (\d+) t, at 70 % of the capacity/.exec(notes(card)) ?? [];
      return amount === undefined ? [] : [{ record, amount: Number(amount) }];
    });
    expect(told.length).toBeGreaterThan(20);
    expect(demo.named('LoadShare')).toBe(0.7);
    for (const { record, amount } of told)
      expect(amount).toBe(Math.round(figure(record, 'Downtime') * figure(record, 'Capacity') * 0.7));
  });
});

test('steps that stop the work say so and have room to sign; cautions are named where they apply', () => {
  for (const { card } of all) {
    stepsTable(card).rows.forEach((row, index) => {
      const step = card.steps[index];
      const [, what, , done] = row;
      if (step === undefined || what === undefined || 'blank' in what || done === undefined || !('blank' in done))
        throw new Error('a row without a step');
      const lines = what.map(({ text }) => text);
      expect(
        lines.some((line) => line.startsWith('HOLD POINT')),
        step.title,
      ).toBe(step.holdPoint);
      expect(done.blank, step.title).toBe(step.holdPoint || step.signOff ? 'sign' : 'tick');
      expect(
        lines.filter((line) => line.startsWith('Cautions: ')),
        step.title,
      ).toEqual(step.notes.length === 0 ? [] : [`Cautions: ${step.notes.map(({ title }) => title).join('; ')}.`]);
    });
    expect(card.steps.filter(({ holdPoint }) => holdPoint).map(({ title }) => title)).toEqual(
      expect.arrayContaining([
        'Isolate and try',
        'Take the tension off',
        'Prove the square line',
        'Tighten, second pass: clamp',
        'Clear and put the guards back',
      ]),
    );
  }
});
