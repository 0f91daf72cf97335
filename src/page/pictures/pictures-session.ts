import { belts } from '../../../sheets/belts/index.ts';
import type { BeltHeader } from '../../../sheets/index.ts';
import type { CheckHeader } from '../../../sheets/belts/check-columns.ts';
import type { FailingChances } from '../../pictures/failing-chances.ts';
import type { Part, Picture } from '../../pictures/picture.ts';
import type { SweptFigure } from '../../pictures/swept-figure.ts';
import type { TypedRange } from '../../pictures/tried-values.ts';
import type { VerdictMap } from '../../pictures/verdict-map.ts';
import { beltRecords } from '../../pictures/belt-figures.ts';
import { variantsOf } from '../../what-if/variants.ts';
import { Background } from '../background.ts';
import type { Desk } from '../desk.ts';
import { shownBelt } from '../shown-belt.ts';
import type { PictureAnswer, PictureTask } from '../workers/picture-worker.ts';

/** What the pictures are asked for, what was found, and the workers that find out the rest. */

export type Work = PictureAnswer['done'];

/** What the user has chosen of a picture. */
interface Chosen {
  readonly picture: string;
  readonly part: Part;
}

interface PictureTerms {
  readonly across: string;
  readonly upward: string;
  readonly spread: string;
  /** Over all belts, or over draws of one. */
  readonly spreadOf: 'belts' | 'draws';
  /** Whose the sweep, the map and the draws are. */
  readonly record: number | undefined;
  readonly swept: BeltHeader;
  readonly sweptBy: TypedRange;
  readonly variants: readonly string[];
  readonly mapped: CheckHeader | 'Verdict';
  readonly mapAcross: TypedRange;
  readonly mapUpward: TypedRange;
}

const over = (by: string): TypedRange => ({ by, from: '', to: '' });

/** Terms are kept while the page is open, but for the belt, which is the one that is selected. */
let lastTerms: Omit<PictureTerms, 'record' | 'variants'> = {
  across: 'Working tension' satisfies BeltHeader,
  upward: 'Joint cost' satisfies BeltHeader,
  spread: 'Rating used' satisfies BeltHeader,
  spreadOf: 'belts',
  swept: 'Joint minimum pulley',
  sweptBy: over('Skew'),
  mapped: 'Verdict',
  mapAcross: over('Skew'),
  mapUpward: over('Smallest pulley'),
};

export class PicturesSession {
  readonly desk: Desk;
  readonly #changed: () => void;
  readonly running: Background<Work, PictureAnswer>;
  readonly variants: readonly string[];
  terms: PictureTerms;
  /** Whether tables stand in the place of the pictures. */
  tables = false;
  chosen: Chosen | undefined;
  said = '';
  chances: FailingChances | undefined;
  draws: Extract<PictureAnswer, { readonly done: 'draws' }> | undefined;
  swept: SweptFigure | undefined;
  map: VerdictMap | undefined;
  readonly #pictures = new Map<string, { readonly of: readonly unknown[]; readonly picture: Picture }>();

  constructor(desk: Desk, changed: () => void) {
    this.desk = desk;
    this.#changed = changed;
    this.running = new Background((_, answer) => this.#take(answer), changed);
    this.variants = variantsOf(desk.book).map(({ name }) => name);
    const shown = shownBelt(desk);
    const records = beltRecords(desk.book);
    this.terms = {
      ...lastTerms,
      record: shown !== undefined && records.includes(shown) ? shown : records[0],
      variants: this.variants,
    };
  }

  /** A picture that is made once for what it is made of. */
  made(id: string, of: readonly unknown[], make: () => Picture): Picture {
    const known = this.#pictures.get(id);
    if (known !== undefined && known.of.length === of.length && known.of.every((one, place) => one === of[place]))
      return known.picture;
    const picture = make();
    this.#pictures.set(id, { of, picture });
    return picture;
  }

  ask(terms: Partial<PictureTerms>): void {
    this.terms = { ...this.terms, ...terms };
    const { record: _record, variants: _variants, ...kept } = this.terms;
    lastTerms = kept;
    this.chosen = undefined;
    this.#changed();
  }

  choose(picture: string, part: Part | undefined): void {
    this.chosen = part === undefined ? undefined : { picture, part };
    this.#changed();
  }

  say(text: string): void {
    this.said = text;
    this.#changed();
  }

  showTables(shown: boolean): void {
    this.tables = shown;
    this.#changed();
  }

  askChances(): void {
    this.#start('chances', { do: 'chances', state: this.desk.book.state });
  }

  askDraws(): void {
    const { record, spread } = this.terms;
    const header = belts.columns.find((column) => column.header === spread)?.header;
    this.draws = undefined;
    if (record !== undefined && header !== undefined)
      this.#start('draws', { do: 'draws', state: this.desk.book.state, record, header });
  }

  askSweep(): void {
    const { record, swept: header, sweptBy: range, variants } = this.terms;
    this.swept = undefined;
    if (record !== undefined)
      this.#start('sweep', { do: 'sweep', state: this.desk.book.state, asked: { record, header, range, variants } });
  }

  askMap(): void {
    const { record, mapped: header, mapAcross: across, mapUpward: upward } = this.terms;
    this.map = undefined;
    if (record !== undefined)
      this.#start('map', { do: 'map', state: this.desk.book.state, asked: { record, header, across, upward } });
  }

  /** Asks for what a picture is made of, if it is neither there nor under way. */
  askMissing(picture: 'spread' | 'sweep' | 'map'): void {
    const open = (work: Work, found: unknown): boolean => found === undefined && !this.running.has(work);
    if (picture === 'sweep' && open('sweep', this.swept)) this.askSweep();
    else if (picture === 'map' && open('map', this.map)) this.askMap();
    else if (picture === 'spread' && this.terms.spreadOf === 'draws' && open('draws', this.draws)) this.askDraws();
  }

  end(): void {
    this.running.end();
  }

  #start(work: Work, task: PictureTask): void {
    this.running.start(
      work,
      new Worker(new URL('../workers/picture-worker.ts', import.meta.url), { type: 'module' }),
      task,
    );
  }

  #take(answer: PictureAnswer): void {
    if (answer.done === 'chances') this.chances = answer.found;
    else if (answer.done === 'draws') this.draws = answer;
    else if (answer.done === 'sweep') this.swept = answer.found;
    else this.map = answer.found;
  }
}
