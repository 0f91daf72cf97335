import { expect, test } from 'vitest';
import { sectionsOf } from '../../src/card/card-form.ts';
import { cardPapers } from '../../src/card/card-pages.ts';
import { jobCard } from '../../src/card/job-card.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** The short form of a card: one sheet, whatever the belt, and nothing that guards the crew is left out of it. */

test.each(['metric', 'us'] as const)(
  'one sheet for each %s belt, the words in front and the drawing behind',
  (units) => {
    const book = new Workbook(demoBook(units));
    let drawn = 0;
    for (const record of book.sheet('Belts').rows.keys()) {
      const card = jobCard(book, record);
      if (card.joint === undefined) continue;
      drawn += 1;
      const sections = sectionsOf(card, 'short');
      for (const paper of ['A4', 'Letter'] as const)
        expect([card.belt, cardPapers(card, paper, sections).map(({ width, height }) => width > height)]).toEqual([
          card.belt,
          [false, true],
        ]);
      const texts = sections
        .flatMap((section) => (section.type === 'note' ? [section.text.toLowerCase()] : []))
        .join('\n');
      for (const { caution } of card.cautions) expect(texts).toContain(`${caution.title.toLowerCase()}: `);
      for (const { verdict, message } of card.findings)
        if (verdict === 'fails' || verdict === 'not known') expect(texts).toContain(message.toLowerCase());
      expect(texts).toContain('does not replace the full job card');
    }
    book.destroy();
    expect(drawn).toBeGreaterThan(30);
  },
);
