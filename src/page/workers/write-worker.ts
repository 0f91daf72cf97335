import type { Finding } from '../../records/finding.ts';
import { findings } from '../../checks/findings.ts';
import type { BookState } from '../../workbook/state.ts';
import { Workbook } from '../../workbook/workbook.ts';
import { exportedBook, type WrittenOtherwise } from '../../xlsx/write/write.ts';

/** Writes a book's file beside the page, so that typing goes on meanwhile. */
export interface WriteOrder {
  readonly state: BookState;
  /** Absent while the page is still looking at the records: then they are looked at here. */
  readonly findings?: readonly Finding[];
}

export type WriteAnswer =
  | { readonly done: true; readonly bytes: Uint8Array; readonly otherwise: readonly WrittenOtherwise[] }
  | { readonly done: false; readonly why: string };

self.addEventListener('message', (event: MessageEvent<WriteOrder>) => {
  const { state, findings: found } = event.data;
  const book = new Workbook(state);
  exportedBook(book, found ?? findings(book)).then(
    ({ bytes, otherwise }) => self.postMessage({ done: true, bytes, otherwise } satisfies WriteAnswer),
    (error: unknown) =>
      self.postMessage({
        done: false,
        why: error instanceof Error ? error.message : String(error),
      } satisfies WriteAnswer),
  );
});
