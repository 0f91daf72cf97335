import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { standardSteps } from '../../sheets/work/standard-steps.ts';
import { supersededSteps } from '../../sheets/work/superseded-steps.ts';
import { jobCard } from '../../src/card/job-card.ts';
import { presentStep, standardInstead } from '../../src/job/present-steps.ts';
import { adaptedBook, type StoredColumns } from '../../src/workbook/adapted-book.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** Books that were stored before texts of steps and names of values changed: their cards print whole steps. */

interface Stored {
  readonly columns: StoredColumns;
  readonly state: BookState;
}

function storedBook(units: 'metric' | 'us'): Workbook {
  const { state, columns }: Stored = JSON.parse(
    String(readFileSync(join(import.meta.dirname, `../earlier/stored-${units}.json`))),
  );
  return new Workbook(adaptedBook(state, columns).state);
}

test.each(['metric', 'us'] as const)('a stored %s book prints the steps of this version', (units) => {
  const book = storedBook(units);
  const card = jobCard(book, 0);
  expect(card.remarks.join(' ')).not.toContain('no value with this name');
  expect(card.remarks.join(' ')).toContain("holds an earlier version's text");
  expect(card.steps.length).toBeGreaterThan(20);
  expect(card.steps.filter(({ filled }) => filled.includes('not known'))).toEqual([]);
  // That version trimmed strips and corners in one step; a book that has it keeps it.
  const titles = new Set(['Trim the strips and corners', ...standardSteps.map(({ Step: title }) => title)]);
  expect(card.steps.map(({ title }) => title).filter((title) => !titles.has(title))).toEqual([]);
});

describe('one step', () => {
  test('every superseded text leads to a standard step, by the names of before and of now', () => {
    for (const { text, now } of supersededSteps) expect(standardInstead({ Text: text })?.Step, text).toBe(now);
    expect(supersededSteps.filter(({ text }) => standardSteps.some((step) => step.Text === text))).toEqual([]);
    const punch = supersededSteps.find(({ now }) => now === 'Punch the holes')?.text ?? '';
    const before = punch.replace('{Edge clearance}', '{Edge left}').replace('{Hole setback}', '{Hole distance}');
    expect(before).not.toBe(punch);
    expect(standardInstead({ Text: before })?.Step).toBe('Punch the holes');
  });
  test("a user's own step keeps its words and has the present names of its values", () => {
    const row = { Step: 'Ours', Text: 'Skive {Skive}, keep {Edge left} clear, ask {Nobody}.', 'Only when': 'Skive' };
    expect(presentStep(row)).toEqual({
      Step: 'Ours',
      Text: 'Skive {Skive depth}, keep {Edge clearance} clear, ask {Nobody}.',
      'Only when': 'Skive depth',
    });
  });
});
