import { keepCompared } from './keeping-variant.ts';
import { counted } from '../units/phrases.ts';
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
import { readLimits, sized } from '../xlsx/read/read-limits.ts';
import { type Correction, ImportCorrections } from './import-corrections.ts';
import { Background } from './background.ts';
import { Comparing } from './comparing.ts';
import type { Desk } from './desk.ts';
import { attempt } from './editing.ts';
import type { ReadAnswer, ReadOrder } from './workers/read-worker.ts';

/**
 * One import, from choosing a file to accepting what was read. The open book stays as it is until then.
 */
type Stage =
  | { readonly name: 'choose'; readonly problem?: string }
  | { readonly name: 'wait'; readonly doing: string }
  | {
      readonly name: 'look';
      readonly proposal: ImportProposal;
      readonly result?: ImportResult;
      readonly problem?: string;
    }
  | {
      readonly name: 'compare';
      readonly comparing: Comparing;
      /** What stands in the place of the comparison when one goes back. */
      readonly before: Stage & { readonly name: 'look' };
    };

/** Milliseconds that a step of an import may take; what takes longer is ended, and the open book is as it was. */
const patience = 20_000;

export class Importing {
  readonly #desk: Desk;
  readonly #reading: Background<'file', ReadAnswer>;
  #corrections = new ImportCorrections();
  #timer: ReturnType<typeof setTimeout> | undefined;
  stage: Stage = { name: 'choose' };
  file = '';
  choices: ImportChoices = {};
  /** Whether what was said of an earlier list with the same headers was taken. */
  remembered = false;
  /** Whether a proposal of this file is the first. */
  #fresh = true;
  /** Whether plate series, strips and assumptions that the file lacks are taken from the open book. */
  keepOpen = false;

  constructor(desk: Desk) {
    this.#desk = desk;
    this.#reading = new Background(
      (_, answer) => this.#take(answer),
      () => this.#broken(),
    );
    desk.listen(() => {
      if (desk.dialog?.kind !== 'import') this.end();
    });
  }

  #go(stage: Stage): void {
    this.stage = stage;
    this.#desk.changed();
  }

  /** Starts over with a file that was chosen or dropped. */
  async open(file: File): Promise<void> {
    this.#begin(file.name);
    if (file.size > readLimits.fileBytes) {
      this.#go({
        name: 'choose',
        problem:
          `${file.name} has ${sized(file.size)}; the maximum is ${sized(readLimits.fileBytes)}, so that reading it ` +
          `fits into memory. Save the list of belts in a workbook of its own.`,
      });
      return;
    }
    this.#go({ name: 'wait', doing: `Reading ${file.name} …` });
    try {
      const bytes = new Uint8Array(await file.arrayBuffer());
      this.#order({ do: 'open', bytes });
    } catch (error) {
      this.#go({
        name: 'choose',
        problem: `${file.name} could not be read: ${error instanceof Error ? error.message : String(error)}`,
      });
    }
  }

  /** Starts over with rows that were pasted: of a spreadsheet, an e-mail, a text. */
  openText(text: string): void {
    this.#begin('Pasted rows');
    this.#go({ name: 'wait', doing: 'Reading the pasted rows …' });
    this.#order({ do: 'open', bytes: new TextEncoder().encode(text) });
  }

  #begin(name: string): void {
    this.end();
    // Invented figures are taken only when somebody asks for them.
    this.keepOpen = !this.#desk.book.state.invented;
    this.file = name;
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

  /** Ends what takes too long: a file or its formulas may ask for more than anyone waits for. */
  #late(doing: string): void {
    this.end();
    this.#go({
      name: 'choose',
      problem:
        `${this.file} was stopped: ${doing} took more than ${patience / 1000} s. The open book is as it was. Delete ` +
        `sheets and rows that the list of belts does not need, or save it with values in place of formulas.`,
    });
  }

  #order(order: ReadOrder): void {
    const doing = order.do === 'open' ? 'reading it' : order.do === 'propose' ? 'finding its lists' : 'working it out';
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#late(doing), patience);
    if (this.#reading.has('file')) this.#reading.goOn('file', order);
    else
      this.#reading.start(
        'file',
        new Worker(new URL('./workers/read-worker.ts', import.meta.url), { type: 'module' }),
        order,
      );
  }

  /** The worker itself came to grief. */
  #broken(): void {
    const why = this.#reading.problems.get('file');
    if (why === undefined) return;
    this.end();
    this.#go({
      name: 'choose',
      problem: `${this.file} could not be read: ${why || 'the browser ran out of memory'}. The open book is unchanged.`,
    });
  }

  #take(answer: ReadAnswer): void {
    clearTimeout(this.#timer);
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
    const base = proposal.ours ? lender : reviewedToday(lender);
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

  accept(): void {
    if (this.stage.name !== 'look' || this.stage.result === undefined) return;
    const { state, report } = this.stage.result;
    if (!attempt(this.#desk, () => this.#desk.book.replace(state, `import of ${this.file}`))) return;
    this.#corrections.remember(this.stage.proposal, this.choices);
    this.#desk.close();
    this.end();
    this.#desk.goTo({ sheet: state.sheets[0]?.name ?? '', record: 0, column: 0 });
    const { length } = report.notUnderstood;
    this.#desk.say(
      `${this.file} is open. Undo brings the previous book back.${
        length === 0
          ? ''
          : ` ${length === 1 ? 'One cell was' : `${length} cells were`} not understood: marked in the grid and ` +
            `listed in Findings.`
      }`,
    );
  }

  /** How many of a file's belts the open book has already. */
  shared({ state }: ImportResult): number {
    const known = new Set(recordKeys(this.#desk.book.sheet('Belts')));
    return recordKeys(sheetOf(state, 'Belts')).filter((key) => key !== '' && known.has(key)).length;
  }

  /** Looks at what differs between the open book and the file. */
  compare(): void {
    if (this.stage.name !== 'look' || this.stage.result === undefined) return;
    const comparing = new Comparing(this.#desk.book.state, this.stage.result);
    this.#go({ name: 'compare', comparing, before: this.stage });
  }

  /** Back from the comparison. */
  look(): void {
    if (this.stage.name === 'compare') this.#go(this.stage.before);
  }

  /** The open book with what was taken of the file; one step to undo. */
  acceptCompared(): void {
    if (this.stage.name !== 'compare') return;
    const { comparing } = this.stage;
    const state = comparing.merged();
    if (!attempt(this.#desk, () => this.#desk.book.replace(state, `what was taken of ${this.file}`))) return;
    this.#corrections.remember(this.stage.before.proposal, this.choices);
    this.#desk.close();
    this.end();
    const of = comparing.plan.items.length;
    this.#desk.say(`${comparing.taken} of ${counted(of, 'difference')} taken; undo brings the book before back.`);
  }

  /** Keeps what was taken of the file as a variant; the book's cells stay as they are. */
  keepCompared(): void {
    if (this.stage.name !== 'compare') return;
    const { edits, others } = this.stage.comparing.changes(this.#desk.book);
    keepCompared(this.#desk, this.file, edits, others, () => this.end());
  }

  /** Ends the reading of a file, wherever it is. */
  end(): void {
    clearTimeout(this.#timer);
    this.#reading.problems.clear();
    this.#reading.end();
    this.stage = { name: 'choose' };
  }
}
