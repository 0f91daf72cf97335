import { BookFile, type WrittenFile } from '../../xlsx/write/book-file.ts';
import { grouped } from '../../xlsx/read/read-limits.ts';
import { heldColumns } from '../../xlsx/write/held-otherwise.ts';
import type { MadeRows } from '../../xlsx/write/made-rows.ts';
import { belts } from '../../../sheets/belts/index.ts';
import { nativePack } from '../native-packing.ts';
import { findingsIn } from './findings-text.ts';
import type { JoinedResults } from './joined-results.ts';
import type { Book } from './long-list.ts';
import { progress } from './progress.ts';
import type { NumberLooks } from './part-model.ts';
import { KeptBytes } from './spool.ts';

/** The file of a long list: its rows leave as they come, packed, and wait on disk for the rest of the file. */
export class LongBook implements Book {
  #file: BookFile | undefined;
  readonly #kept = new KeptBytes();
  #written = 0;
  /** Whether the book has plate series: without them no joint can be checked. */
  hasSeries = false;

  readonly begin: Book['begin'] = async (sample, { count, patterned }) => {
    this.hasSeries = sample.sheet('Plate series').rows.length > 0;
    const held = heldColumns(sample);
    this.#file = await BookFile.begin(sample, {
      // The sample does not have all texts.
      held: { ...held, patterned: new Set([...held.patterned, ...patterned]) },
      pack: nativePack,
      keep: (bytes) => {
        const at = this.#kept.add(bytes);
        const { length } = bytes;
        return () => this.#kept.at(at, length);
      },
    });
    return this.#file.layout(new Map([[belts.name, count]]));
  };

  get #begun(): BookFile {
    if (this.#file === undefined) throw new Error('rows came before their file was begun');
    return this.#file;
  }

  readonly numbers: NumberLooks = (looks) => this.#begun.numbersFor(looks);

  readonly add = async (made: MadeRows, found: string): Promise<void> => {
    this.#begun.add(made);
    await this.#addFindings([found]);
  };

  /** Adds findings that come as lines of data, in pieces of any length. */
  async #addFindings(pieces: Iterable<string>, told: () => void = () => undefined): Promise<void> {
    let rest = '';
    for (const piece of pieces) {
      const lines = (rest + piece).split('\n');
      rest = lines.pop() ?? '';
      const findings = lines.flatMap(findingsIn);
      await this.#begun.addFindings(findings);
      this.#written += findings.length;
      told();
    }
  }

  /** Writes the findings that are left and all that stands around the rows. */
  async end(results: JoinedResults, step: () => void): Promise<WrittenFile> {
    await this.#addFindings(results.findings(), () => {
      step();
      progress(`${grouped(this.#written)} of ${grouped(results.found)} findings written`);
    });
    return this.#begun.end();
  }

  close(): void {
    this.#kept.close();
  }
}
