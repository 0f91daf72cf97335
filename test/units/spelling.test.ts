import { expect, test } from 'vitest';
import { isCalled, shownHeader } from '../../src/sheet/header.ts';
import { spelt } from '../../src/units/spelling.ts';
import { cardSections } from '../../src/card/card-sections.ts';
import { jobCard } from '../../src/card/job-card.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { recordFindings } from '../../src/checks/findings.ts';
import { bookOf, soundBelt } from '../workbook/books.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

test('US books spell as their readers do; metric ones and names of the user stay', () => {
  expect(shownHeader({ header: 'Pulley centres' }, 'us')).toBe('Pulley centers');
  expect(shownHeader({ header: 'Pulley centres' }, 'metric')).toBe('Pulley centres');
  expect(shownHeader({ header: 'Labour hours low' }, 'us')).toBe('Labor hours low');
  expect(shownHeader({ header: 'Grey centres', own: true }, 'us')).toBe('Grey centres');
  expect(spelt('per metre of labour at the centre of Centre 1', 'us')).toBe(
    'per meter of labor at the center of Centre 1',
  );
});

test('a column is named in either spelling and by its earlier name', () => {
  const column = { header: 'Pulley centres', formerly: 'Centres' };
  expect(['pulley CENTERS', 'Pulley centres', ' centres ', 'Centre'].map((text) => isCalled(column, text))).toEqual([
    true,
    true,
    true,
    false,
  ]);
});

test('findings of a US book name columns as the sheet shows them', () => {
  const belts = [{ ...soundBelt, 'Pulley centres': 'far', 'Known tension': null }];
  const words = (units: 'metric' | 'us'): string =>
    recordFindings(new Workbook(bookOf({ belts }, units)), 0)
      .map(({ message, cures }) => [message, ...cures].join(' '))
      .join('\n');
  expect(words('metric')).toContain('Pulley centres');
  expect(words('us')).toContain('Pulley centers');
  expect(words('us')).not.toContain('centres');
});

test('a card of a US book spells as its readers do', () => {
  const book = new Workbook(demoBook('us'));
  const texts = JSON.stringify(
    cardSections(jobCard(book, 0)).filter(({ type }) => type !== 'drawing' && type !== 'head'),
  );
  for (const word of ['Labor hours', 'center line', 'authorize']) expect(texts).toContain(word);
  expect(texts).not.toMatch(/\b(?:[Ll]abour|[Cc]entres?|authorise|[Vv]ulcanised?)\b/);
});
