import type { BeltHeader } from '../../sheets/index.ts';
import { belts } from '../../sheets/belts/index.ts';
import type { Value } from '../formula/values.ts';
import { declaredValue, headerPosition } from '../workbook/declared.ts';
import type { SupposedKind, SupposedOf } from '../workbook/supposed-blocks.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { Belt, Change } from './belt.ts';

/**
 * What belts would be if some of their inputs were others, asked of many belts at once.
 *
 * A search for what helps a belt asks in turns: which of these skews, then what else would follow from the best. Each
 * turn of all searches together is worked out in blocks, which takes a fraction of what asking row by row takes.
 */

/** A change of the belt's inputs and of named values; cells of other sheets stay. */
export type Trying = Pick<Change, 'inputs' | 'named'>;

/** The belt's values after each change, in the columns that were asked for. */
type Tried = (change: number, header: BeltHeader) => Value;

interface Question {
  readonly belt: Belt;
  readonly changes: readonly Trying[];
  readonly wanted: readonly BeltHeader[];
}

/** A search that asks what a belt would be, and goes on with the answers. */
export type Asking<Answer> = Generator<Question, Answer, Tried>;

/** One search that has asked, and waits. */
interface Waiting<Answer> {
  readonly search: Asking<Answer>;
  readonly place: number;
  readonly question: Question;
}

const kinds = new Map<string, SupposedKind>();

/** What a change is of; throws a programmer's error for a header or a named value that is not declared. */
function kindOf(inputs: object, named: object): SupposedKind {
  const [headers, names] = [Object.keys(inputs), Object.keys(named)];
  const mark = `${headers.join('|')}=${names.join('|')}`;
  let kind = kinds.get(mark);
  if (kind === undefined) {
    const columns = headers.map((header) => headerPosition(belts.name, header));
    kinds.set(mark, (kind = { columns, names: names.map((name) => declaredValue(name).name) }));
  }
  return kind;
}

const nothing = {};

function supposedOf(record: number, { inputs = nothing, named = nothing }: Trying): SupposedOf {
  const values: Value[] = [...Object.values(inputs), ...Object.values(named)];
  return { record, kind: kindOf(inputs, named), values };
}

/** The answers to questions about belts of one book that want the same columns. */
function triedTogether(book: Workbook, questions: readonly Question[], wanted: readonly BeltHeader[]): Tried[] {
  const at = new Map(wanted.map((header, index) => [header, index]));
  const columns = book.whatIfs({
    sheet: belts.name,
    wanted: wanted.map((header) => book.column(belts.name, header)),
    supposed: questions.flatMap(({ belt, changes }) => changes.map((change) => supposedOf(belt.record, change))),
  });
  let next = 0;
  return questions.map(({ changes }): Tried => {
    const first = next;
    next += changes.length;
    return (change, header) => {
      const index = at.get(header);
      if (index === undefined) throw new Error(`${header} was not asked for`);
      return columns[index]?.[first + change] ?? null;
    };
  });
}

/** Questions that can be answered together: of one book, for the same columns. */
function together<Answer>(waiting: readonly Waiting<Answer>[]): Waiting<Answer>[][] {
  const groups = new Map<Workbook, Map<string, Waiting<Answer>[]>>();
  for (const one of waiting) {
    const { belt, wanted } = one.question;
    const ofBook = groups.get(belt.book) ?? new Map<string, Waiting<Answer>[]>();
    groups.set(belt.book, ofBook);
    const mark = wanted.join('|');
    const group = ofBook.get(mark);
    if (group === undefined) ofBook.set(mark, [one]);
    else group.push(one);
  }
  return [...groups.values()].flatMap((ofBook) => [...ofBook.values()]);
}

const noAnswer: Tried = () => null;

/** Lets searches run to their ends, turn by turn; what each comes to, in their order. */
export function searched<Answer>(searches: readonly Asking<Answer>[]): Answer[] {
  const answers: Answer[] = [];
  const goOn = (search: Asking<Answer>, place: number, step: IteratorResult<Question, Answer>): Waiting<Answer>[] => {
    if (step.done !== true) return [{ search, place, question: step.value }];
    answers[place] = step.value;
    return [];
  };
  let waiting = searches.flatMap((search, place) => goOn(search, place, search.next(noAnswer)));
  while (waiting.length > 0) {
    waiting = together(waiting).flatMap((group) => {
      const [first] = group;
      if (first === undefined) return [];
      const questions = group.map(({ question }) => question);
      const tried = triedTogether(first.question.belt.book, questions, first.question.wanted);
      return group.flatMap(({ search, place }, index) => goOn(search, place, search.next(tried[index] ?? noAnswer)));
    });
  }
  return answers;
}
