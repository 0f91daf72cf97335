import { recordKeys } from '../workbook/record-names.ts';
import { emptyBook } from '../workbook/declared.ts';
import { reviewedToday } from '../workbook/lent-sheets.ts';
import { sheetOf } from '../workbook/state.ts';
import type {
  ColumnProposal,
  ImportChoices,
  ImportProposal,
  ImportResult,
  TableProposal,
} from '../xlsx/import/import-model.ts';
import { readLimits } from '../xlsx/read/read-limits.ts';
import { type Correction, ImportCorrections } from './import-corrections.ts';
import { FileReading } from './file-reading.ts';
import { lent, type Stage, tooLarge } from './import-stage.ts';
import { addAsBook, comparisonOf, type ReadFile, rememberRead, takenWords, unreadWords } from './import-comparison.ts';
import type { Desk } from './desk.ts';
import { changeAll } from './book-changes.ts';
import type { DiskFile } from './library/disk-file.ts';
import { digestOf } from './library/packed-book.ts';
import { headersOf } from './remembered-lists.ts';
import type { ReadAnswer, ReadOrder } from './workers/read-worker.ts';

export class Importing {
  readonly #desk: Desk;
  readonly #reading: FileReading;
  #corrections = new ImportCorrections();
  stage: Stage = { name: 'choose' };
  file = '';
  /** Of the file's bytes, by which it is known again. */
  #digest = '';
  #size = 0;
  /** Where the file lies, when the page may write it. */
  #onDisk: DiskFile | undefined;
  choices: ImportChoices = {};
  /** Whether what was said of an earlier list with the same headers was taken. */
  remembered = false;
  /** Whether a proposal of this file is the first. */
  #fresh = true;
  /** Whether plate series, strips and assumptions that the file lacks are taken from the open book. */
  keepOpen = false;

  constructor(desk: Desk) {
    this.#desk = desk;
    this.#reading = new FileReading({
      take: (answer) => this.#take(answer),
      late: (doing, seconds) => this.#late(doing, seconds),
      broken: (why) => this.#broken(why),
    });
    desk.listen(() => {
      if (desk.dialog?.kind !== 'import') this.end();
    });
  }

  #go(stage: Stage): void {
    this.stage = stage;
    this.#desk.changed();
  }

  /** Starts over with a file that was chosen or dropped. */
  async open(file: File, onDisk?: DiskFile): Promise<void> {
    this.#begin(file.name);
    this.#onDisk = onDisk;
    if (file.size > readLimits.fileBytes) {
      this.#go(tooLarge(file));
      return;
    }
    this.#go({ name: 'wait', doing: `Reading ${file.name} …` });
    try {
      await this.#read(new Uint8Array(await file.arrayBuffer()));
    } catch (error) {
      this.#go({
        name: 'choose',
        problem: `${file.name} could not be read: ${error instanceof Error ? error.message : String(error)}`,
      });
    }
  }

  /** Starts over with rows that were pasted. */
  openText(text: string): void {
    this.#begin('Pasted rows');
    this.#go({ name: 'wait', doing: 'Reading the pasted rows …' });
    void this.#read(new TextEncoder().encode(text));
  }

  async #read(bytes: Uint8Array<ArrayBuffer>): Promise<void> {
    this.#size = bytes.length;
    this.#digest = await digestOf(bytes);
    this.#order({ do: 'open', bytes });
  }

  #begin(name: string): void {
    this.end();
    // Invented figures are taken only when somebody asks for them.
    this.keepOpen = !this.#desk.book.state.invented;
    this.file = name;
    this.#onDisk = undefined;
    this.choices = {};
    this.#corrections = new ImportCorrections();
    this.#fresh = true;
    this.remembered = false;
  }

  /** Takes what was said of an earlier list with these headers; whether there was any. */
  #recalled(proposal: ImportProposal): boolean {
    const known = this.#fresh ? this.#corrections.recall(proposal) : undefined;
    this.#fresh = false;
    if (known === undefined) return false;
    this.choices = known;
    this.remembered = true;
    return true;
  }

  /** Looks at the file as if no list with its headers had been read before. */
  forget(): void {
    this.#corrections.forget();
    this.remembered = false;
    this.choose({});
  }

  /** What took too long was ended. */
  #late(doing: string, seconds: number): void {
    this.#go({
      name: 'choose',
      problem:
        `${this.file} was stopped: ${doing} took more than ${seconds} s. The open book is as it was. Delete ` +
        `sheets and rows that the list of belts does not need, or save it with values in place of formulas.`,
    });
  }

  #order(order: ReadOrder): void {
    this.#reading.order(order, this.file, this.#size);
  }

  /** The worker itself came to grief. */
  #broken(why: string): void {
    this.#go({
      name: 'choose',
      problem: `${this.file} could not be read: ${why || 'the browser ran out of memory'}. The open book is unchanged.`,
    });
  }

  #take(answer: ReadAnswer): void {
    switch (answer.done) {
      case 'open':
        this.#order({ do: 'propose', choices: this.choices });
        break;
      case 'propose':
        if (this.#recalled(answer.proposal)) this.#order({ do: 'propose', choices: this.choices });
        else this.#try(this.#corrections.applied(answer.proposal));
        break;
      case 'try':
        if (this.stage.name === 'look')
          this.#go({ name: 'look', proposal: this.stage.proposal, result: answer.result });
        break;
      case 'unreadable':
        this.#refuse(`${this.file} ${answer.expected ? 'could not be used' : 'could not be read'}: ${answer.why}`);
    }
  }

  #refuse(problem: string): void {
    if (this.stage.name === 'look') this.#go({ name: 'look', proposal: this.stage.proposal, problem });
    else {
      this.end();
      this.#go({ name: 'choose', problem });
    }
  }

  #try(proposal: ImportProposal): void {
    this.#go({ name: 'look', proposal });
    // A book of ours says itself when it was looked at; ages of a list count to today, as on the command line.
    const lender = this.keepOpen ? this.#desk.book.state : emptyBook(this.#desk.book.units);
    const base = lent(proposal.ours ? lender : reviewedToday(lender), proposal);
    this.#order({ do: 'try', proposal, base, title: this.file.replace(/\.[^.]+$/, '') });
  }

  /** Looks at the file anew with other choices; corrections of columns stay. */
  choose(choices: ImportChoices): void {
    this.choices = choices;
    this.#order({ do: 'propose', choices });
    if (this.stage.name === 'look') this.#go({ name: 'look', proposal: this.stage.proposal });
  }

  correct(table: TableProposal, column: ColumnProposal, correction: Correction): void {
    this.#corrections.correct(table, column, correction);
    this.#again();
  }

  takeFor(table: TableProposal, target: string): void {
    this.#corrections.takeFor(table, target);
    this.#again();
  }

  keep(open: boolean): void {
    this.keepOpen = open;
    this.#again();
  }

  #again(): void {
    if (this.stage.name === 'look') this.#try(this.#corrections.applied(this.stage.proposal));
  }

  #readFile({ proposal }: { readonly proposal: ImportProposal }, result: ImportResult): ReadFile {
    return { name: this.file, digest: this.#digest, headers: headersOf(proposal), result, onDisk: this.#onDisk };
  }

  accept(): void {
    if (this.stage.name !== 'look' || this.stage.result === undefined) return;
    const { state, report } = this.stage.result;
    const before = this.#desk.book.state;
    const read = this.#readFile(this.stage, this.stage.result);
    const { proposal } = this.stage;
    const step = `import of ${read.name}`;
    const replace = (): void => this.#desk.book.replace(state, step);
    const done = (): void => {
      rememberRead(this.#desk, read, step, before);
      this.#done(proposal);
      this.#desk.goTo({ sheet: state.sheets[0]?.name ?? '', record: 0, column: 0 });
      this.#desk.say(`${read.name} is open. Undo brings the previous book back.${unreadWords(report)}`);
    };
    changeAll(this.#desk, step, replace, done, state);
  }

  #done(proposal: ImportProposal): void {
    this.#corrections.remember(proposal, this.choices);
    this.#desk.close();
    this.end();
  }

  /** Makes a book of its own of the file, beside the open one, and opens it. */
  acceptAsNew(): void {
    if (this.stage.name !== 'look' || this.stage.result === undefined) return;
    const { proposal, result } = this.stage;
    void addAsBook(this.#desk, this.#readFile(this.stage, result));
    this.#done(proposal);
  }

  /** Of a file's belts those that the open book has. */
  shared({ state }: ImportResult): number {
    const known = new Set(recordKeys(this.#desk.book.sheet('Belts')));
    return recordKeys(sheetOf(state, 'Belts')).filter((key) => key !== '' && known.has(key)).length;
  }

  /** Looks at what differs between the open book and the file. */
  async compare(): Promise<void> {
    const before = this.stage;
    if (before.name !== 'look' || before.result === undefined) return;
    const comparison = await comparisonOf(this.#desk, this.#readFile(before, before.result));
    if (this.stage === before) this.#go({ name: 'compare', comparison, before });
  }

  look(): void {
    if (this.stage.name === 'compare') this.#go(this.stage.before);
  }

  /** The open book with what was taken of the file; one step to undo. */
  acceptCompared(): void {
    if (this.stage.name !== 'compare') return;
    const { comparison, before } = this.stage;
    const { comparing } = comparison;
    const { result } = before;
    if (comparing.undecided > 0 || result === undefined) return;
    const [state, earlier] = [comparing.merged(), this.#desk.book.state];
    const read = this.#readFile(before, result);
    const done = (): void => {
      rememberRead(this.#desk, read, `merge of ${read.name}`, earlier);
      this.#done(before.proposal);
      this.#desk.say(takenWords(comparing));
    };
    const step = `what was taken of ${read.name}`;
    if (comparing.taken > 0) changeAll(this.#desk, step, () => this.#desk.book.replace(state, step), done, state);
    else done();
  }

  /** Ends the reading of a file, wherever it is. */
  end(): void {
    this.#reading.end();
    this.stage = { name: 'choose' };
  }
}
