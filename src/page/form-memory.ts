import { emptyBook } from '../workbook/declared.ts';
import type { ImportProposal, ImportResult } from '../xlsx/import/import-model.ts';
import type { Desk } from './desk.ts';
import { type HandedRows, isHandedRows, RowsAhead } from './handing-over.ts';
import { rememberWritten } from './import-comparison.ts';
import { digestOf } from './library/packed-book.ts';
import { headersOf } from './remembered-lists.ts';
import type { ReadAnswer, ReadOrder } from './workers/read-worker.ts';

/** What a sheet said when it was sent out to be filled in: what comes back is compared with that. */

interface ReadForm {
  readonly proposal: ImportProposal;
  readonly result: ImportResult;
}

/** A form as it will be read when it comes back untouched. */
function readForm(desk: Desk, bytes: Uint8Array): Promise<ReadForm> {
  const worker = new Worker(new URL('./workers/read-worker.ts', import.meta.url), { type: 'module' });
  const order = (task: ReadOrder): void => worker.postMessage(task);
  return new Promise<ReadForm>((done, failed) => {
    const ahead = new RowsAhead();
    let proposal: ImportProposal | undefined;
    worker.addEventListener('error', ({ message }) => failed(new Error(message)));
    worker.addEventListener('message', ({ data }: MessageEvent<ReadAnswer | HandedRows>) => {
      if (isHandedRows(data)) ahead.take(data);
      else if (data.done === 'unreadable') failed(new Error(data.why));
      else if (data.done === 'open') order({ do: 'propose', choices: {} });
      else if (data.done === 'propose') {
        proposal = data.proposal;
        order({ do: 'try', proposal, base: emptyBook(desk.book.units), title: '' });
      } else if (proposal !== undefined) {
        const { result } = data;
        done({ proposal, result: { ...result, state: ahead.joined(result.state) } });
      }
    });
    order({ do: 'open', bytes });
  }).finally(() => worker.terminate());
}

/**
 * Remembers a form that was written, as it reads. Cells that hold formulas in the book hold their values in the form,
 * so the form itself is what both come from, and not the book.
 */
export async function rememberForm(desk: Desk, name: string, bytes: Uint8Array<ArrayBuffer>): Promise<void> {
  if (desk.library === undefined) return;
  const digest = await digestOf(bytes);
  const { proposal, result } = await readForm(desk, bytes);
  await rememberWritten(desk, { name, digest, headers: headersOf(proposal), result, onDisk: undefined });
}
