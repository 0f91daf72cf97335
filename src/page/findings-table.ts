import type { TableBook } from '../sheet/table.ts';
import type { Desk } from './desk.ts';
import { findingsNow } from './findings-list.ts';

/** The findings that are listed as a table for a file, one row for each belt of each, with room for what was done. */
export const findingsTable = (desk: Desk): TableBook => ({
  title: `${desk.book.state.title} findings`,
  tables: [
    {
      name: 'Findings',
      keys: 2,
      columns: ['Record', 'Verdict', 'Check', 'Finding', 'Cures', 'Cell', 'Done', 'By', 'On'].map((header) => ({
        header,
        kind: 'text',
      })),
      rows: findingsNow(desk).flatMap(({ all }) =>
        all.map(({ name, verdict, check, message, cures, cell }) => [
          name,
          verdict,
          check,
          message,
          cures.join('\n'),
          cell,
          null,
          null,
          null,
        ]),
      ),
    },
  ],
  about: [['Contents', 'the findings that were listed on the page: the check, the area and the filter chosen there']],
});
