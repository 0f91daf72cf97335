import { Background } from './background.ts';
import { isHandedRows, type HandedRows, RowsAhead } from './handing-over.ts';
import { beginReading, endReading } from './unfinished-reading.ts';
import type { ReadAnswer, ReadOrder } from './workers/read-worker.ts';

const mebi = 1024 * 1024;

/**
 * Seconds that a step of reading may take, for any file and for each MiB of it. Ours: some ten times what reading a
 * list takes, so that only what does not end, or unpacks to far more than its size, is stopped.
 */
const patience = { always: 20, perMebi: 10 };

const doing: Readonly<Record<ReadOrder['do'], string>> = {
  open: 'reading it',
  propose: 'finding its lists',
  try: 'working it out',
};

/** What becomes of a reading; none of it is heard once it was ended. */
interface ReadingTold {
  readonly take: (answer: ReadAnswer) => void;
  /** It was ended: what it was at, and for how many seconds. */
  readonly late: (doing: string, seconds: number) => void;
  /** The worker came to grief: '' where nobody knows by what. */
  readonly broken: (why: string) => void;
}

/** A file that is read beside the page, step by step, each within its time. */
export class FileReading {
  readonly #told: ReadingTold;
  readonly #reading: Background<'file', ReadAnswer | HandedRows>;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #ahead = new RowsAhead();

  constructor(told: ReadingTold) {
    this.#told = told;
    this.#reading = new Background(
      (_, answer) => this.#take(answer),
      () => {
        const why = this.#reading.problems.get('file');
        if (why === undefined) return;
        this.end();
        told.broken(why);
      },
    );
  }

  /** Asks for the next step; `file` and `size` are those of the file. */
  order(order: ReadOrder, file: string, size: number): void {
    const seconds = Math.round(patience.always + (patience.perMebi * size) / mebi);
    clearTimeout(this.#timer);
    beginReading(file);
    this.#timer = setTimeout(() => {
      this.end();
      this.#told.late(doing[order.do], seconds);
    }, 1000 * seconds);
    if (this.#reading.has('file')) this.#reading.goOn('file', order);
    else
      this.#reading.start(
        'file',
        new Worker(new URL('./workers/read-worker.ts', import.meta.url), { type: 'module' }),
        order,
      );
  }

  #take(answer: ReadAnswer | HandedRows): void {
    if (isHandedRows(answer)) {
      this.#ahead.take(answer);
      return;
    }
    clearTimeout(this.#timer);
    endReading();
    if (answer.done !== 'try') {
      this.#told.take(answer);
      return;
    }
    const { result } = answer;
    this.#told.take({ ...answer, result: { ...result, state: this.#ahead.joined(result.state) } });
  }

  /** Ends it, wherever it is. */
  end(): void {
    clearTimeout(this.#timer);
    endReading();
    this.#ahead = new RowsAhead();
    this.#reading.problems.clear();
    this.#reading.end();
  }
}
