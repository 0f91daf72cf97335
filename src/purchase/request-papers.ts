import { plainNames } from '../sheet/file-names.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { type PaperFile, paperNumber, type SheetWriter, usualPaper } from './order-papers.ts';
import type { RequestDocument } from './request-document.ts';
import { requestFileName, requestForm, requestTitle } from './request-form.ts';

/** The files of requests for quotation, one to a supplier, in the order of the requests. */
export function requestFiles(
  documents: readonly RequestDocument[],
  units: UnitSystem,
  write: SheetWriter,
): Promise<PaperFile[]> {
  const names = plainNames(documents.map(requestFileName), requestTitle);
  const paper = paperNumber(usualPaper(units));
  return Promise.all(
    documents.map(async (document, place) => ({
      name: `${names[place] ?? ''}.xlsx`,
      bytes: await write([requestForm(document)], { title: requestFileName(document), paper, units }),
    })),
  );
}
