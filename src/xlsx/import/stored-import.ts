import { convertedBook } from '../../workbook/conversion.ts';
import type { RawBook } from '../read/raw-book.ts';
import type { ImportChoices, ImportProposal, ImportResult } from './import-model.ts';

/** A book as a browser had stored it: nothing in it has to be found out. */

type StoredBook = NonNullable<RawBook['stored']>;

export const proposeStored = ({ state, told }: StoredBook, choices: ImportChoices): ImportProposal => ({
  ours: true,
  units: choices.units ?? state.units,
  unitsWhy: 'the file is a book that a browser had stored',
  tables: [],
  fill: [],
  values: [],
  assumed: told,
});

export const acceptStored = (stored: StoredBook, { units, unitsWhy, assumed }: ImportProposal): ImportResult => ({
  state: convertedBook(stored.state, units).state,
  report: {
    ours: true,
    units,
    unitsWhy,
    tables: [],
    notUnderstood: [],
    lacking: [],
    remarks: [],
    assumed,
    notKept: [],
  },
});
