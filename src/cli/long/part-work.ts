import { belts } from '../../../sheets/belts/index.ts';
import { findingsInTurn } from '../../checks/findings.ts';
import { buyingFindings } from '../../order/buying-findings.ts';
import type { Finding } from '../../records/finding.ts';
import { isoDate } from '../../units/dates.ts';
import { reviewDate } from '../../workbook/lent-sheets.ts';
import { sheetOf } from '../../workbook/state.ts';
import { Workbook } from '../../workbook/workbook.ts';
import { acceptImport } from '../../xlsx/import/acceptance.ts';
import type { EarlierRecords, ImportReport } from '../../xlsx/import/import-model.ts';
import { keyColumnOf, lookedAt, nameMark } from '../../xlsx/import/list-parts.ts';
import { columnName } from '../../xlsx/read/cell-address.ts';
import type { LookAsked } from '../../xlsx/write/file-numbers.ts';
import { type FileLayout, type MadeRows, RowMaker } from '../../xlsx/write/made-rows.ts';
import { nativePack } from '../native-packing.ts';
import { countsOf } from '../finding-lines.ts';
import { listState } from '../list-book.ts';
import { SourcePlaces } from '../source-places.ts';
import { findingsData, findingsText } from './findings-text.ts';
import { type ListContent, listContent } from './list-content.ts';
import type {
  CalculateTask,
  CountedText,
  ListData,
  ListPlan,
  LookedPart,
  LookTask,
  PartResult,
  PlacedFinding,
} from './part-model.ts';

/**
 * Works parts of a long list out, each as a small book of its own with the sheets that all belts share.
 *
 * What a part cannot know by itself (what columns hold, which names stand twice, how many belts come before) is in the
 * plan, which is made when all rows have been looked at.
 */
export class PartWork {
  readonly #data: ListData;
  readonly content: ListContent;
  #plan: ListPlan | undefined;
  #maker: RowMaker | undefined;

  constructor(data: ListData) {
    this.#data = data;
    this.content = listContent(data);
  }

  look(task: LookTask): LookedPart {
    const { sheet, choices } = this.#data;
    const { book, decimals } = this.content.read(task);
    return { ...lookedAt(book, sheet.name, choices, task.begins), decimals };
  }

  plan(plan: ListPlan): void {
    this.#plan = plan;
  }

  /** A part as a book, with what was understood of it. */
  book(plan: ListPlan, task: CalculateTask): { book: Workbook; report: ImportReport; places: SourcePlaces } {
    const { file, title, base, baseName, other, date } = this.#data;
    const { before, head, after, decimal, proposal } = plan;
    const { rows, firstRow: first, part } = task;
    const { book: raw } = this.content.read({
      before,
      after,
      head: part === 0 ? new Uint8Array(0) : head,
      rows,
      first,
      decimal,
    });
    const { state, report } = acceptImport(raw, proposal, base, { title, baseName, part: this.#earlier(plan, task) });
    const book = new Workbook(listState(state, report, { other, date }));
    return { book, report, places: new SourcePlaces(file, raw, report) };
  }

  async calculate(
    task: CalculateTask,
    numbers: (looks: readonly LookAsked[]) => Promise<readonly number[]>,
  ): Promise<PartResult> {
    const plan = this.#plan;
    if (plan === undefined) throw new Error('a part of a list was to be worked out before there was a plan');
    const { book, report, places } = this.book(plan, task);
    try {
      const found = partFindings(book, places, this.#data.wanted, (name) => plan.firsts.has(nameMark(`\n${name}`)));
      const made = plan.layout === undefined ? undefined : await this.#made(book, plan.layout, task, numbers);
      return { report, ...found, ...(made === undefined ? {} : { made }) };
    } finally {
      book.destroy();
    }
  }

  /** The belts of a part as rows of the file. */
  async #made(
    book: Workbook,
    layout: FileLayout,
    { part, records }: CalculateTask,
    numbers: (looks: readonly LookAsked[]) => Promise<readonly number[]>,
  ): Promise<MadeRows> {
    this.#maker ??= new RowMaker(book, layout, nativePack);
    for (;;) {
      const made = await this.#maker.recordRows(book, belts.name, { number: part, above: records });
      if (!('wanted' in made)) return made;
      this.#maker.learn(made.wanted, await numbers(made.wanted));
    }
  }

  #earlier({ proposal, firsts, dates }: ListPlan, { records, firstRow }: CalculateTask): EarlierRecords {
    const { name } = this.#data.sheet;
    const table = proposal.tables.find(({ sheet, target }) => sheet === name && target === belts.name);
    const key = table === undefined ? 0 : keyColumnOf(table);
    return {
      records,
      dates,
      first: (word) => firsts.get(nameMark(`\n${word}`))?.record,
      place: (word) => {
        const first = firsts.get(nameMark(word));
        return first === undefined || first.row >= firstRow ? undefined : `${name} ${columnName(key)}${first.row}`;
      },
    };
  }
}

/** What is found in a part, with the rows that it has in the whole list. */
function partFindings(
  book: Workbook,
  places: SourcePlaces,
  wanted: ListData['wanted'],
  standsTwice: (name: string) => boolean,
): Omit<PartResult, 'report'> {
  const before = sheetOf(book.state, belts.name).before?.records ?? 0;
  // What the belts' checks find comes first, then the cells of each sheet.
  const turns = [...findingsInTurn(book)];
  const cells = turns.splice(turns.length - book.state.sheets.length).flat();
  const all = turns.flat();
  const buying = buyingFindings(book);
  const inList = (finding: Finding): Finding =>
    finding.sheet === belts.name ? { ...finding, record: finding.record + before } : finding;
  const placed = (finding: Finding): PlacedFinding => ({ ...inList(finding), place: places.of(finding) });
  const text = (found: readonly Finding[]): CountedText => ({
    text: wanted === 'data' ? findingsData(found.map(inList)) : findingsText(found.map(placed), wanted),
    count: found.length,
  });
  const sheets = [...new Set(cells.map(({ sheet }) => sheet))];
  const compared = [...all, ...cells, ...buying].filter(({ verdict }) => verdict === 'compare');
  // Names that other parts may have too: what is said of other sheets is said in each part.
  const isShared = ({ sheet, name }: Finding): boolean =>
    sheet !== belts.name || standsTwice(name.trim().toLowerCase());
  const names = (found: readonly Finding[]): ReadonlySet<string> => new Set(found.map(({ name }) => name));
  const serial = book.named(reviewDate);
  return {
    units: book.units,
    sheets: book.state.sheets.map(({ name }) => name),
    day: typeof serial === 'number' ? isoDate(serial) : undefined,
    counts: countsOf(book),
    checked: text(all),
    cells: sheets.map((sheet) => ({ sheet, ...text(cells.filter((finding) => finding.sheet === sheet)) })),
    buying: text(buying),
    fails: [...all, ...cells, ...buying].some(({ verdict }) => verdict === 'fails'),
    compared: names(compared.filter((finding) => !isShared(finding))).size,
    comparedTwice: [...names(compared.filter(isShared))],
  };
}
