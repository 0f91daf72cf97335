import { describe, expect, test, vi } from 'vitest';
import { cardsPdf } from '../../src/card/card-pdf.ts';
import { jobCard } from '../../src/card/job-card.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { printedCode } from './printed-code.ts';

vi.setConfig({ testTimeout: 60_000 });

async function readBack(belt: string, paper: 'A4' | 'Letter' = 'A4'): Promise<string> {
  const book = new Workbook(demoBook('metric'));
  book.edit([{ sheet: 'Belts', record: 0, column: book.column('Belts', 'Belt'), content: belt }]);
  return printedCode(await cardsPdf([jobCard(book, 0)], paper));
}

describe('the code on a printed card gives the name of the belt to another reader', () => {
  test.each([
    'Q1',
    '4711',
    'CV-12',
    'B 12 north',
    'Förderband Süd 7/Ü',
    'Überland 3 · Abwurf „Ost“',
    'Лента 4 «Юг»',
    'Ιμάντας 9',
    '运输带 12',
    'ベルト',
    '벨트 3',
    'سير 5',
    'C3 → C4 😀',
    'Reclaim tunnel 4, lower deck, north side, from the tertiary crusher to the stacker',
    'x'.repeat(120),
    'Ж'.repeat(60),
  ])('%s', async (belt) => {
    expect(await readBack(belt)).toBe(belt);
  });

  test('on Letter too', async () => {
    expect(await readBack('CV-3 Ü', 'Letter')).toBe('CV-3 Ü');
  });

  test('a name too long for it has no code', async () => {
    expect(await readBack('x'.repeat(121))).toBe('');
  });
});
