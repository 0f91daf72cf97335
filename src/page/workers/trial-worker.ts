import type { BookState } from '../../workbook/state.ts';
import { Workbook } from '../../workbook/workbook.ts';
import { answering } from './answering.ts';

/** Works a book out beside the page, which ends this worker when it takes too long. */
answering(async (state: BookState) => {
  await Promise.resolve();
  new Workbook(state).destroy();
});
