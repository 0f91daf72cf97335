import { belts } from '../../../sheets/belts/index.ts';
import type { VerdictCounts } from '../../reference/findings-json.ts';
import { JoinedReports } from '../../xlsx/import/joined-reports.ts';
import type { PartResult } from './part-model.ts';
import { Spool } from './spool.ts';

/** What the parts of a long list come to together, told in the order in which the whole list's findings are. */
export class JoinedResults {
  readonly #reports: JoinedReports;
  readonly #keepsChecked: boolean;
  readonly #checked = new Spool();
  /** Findings of the belts' cells; those of other sheets are told once, around them. */
  readonly #cells = new Spool();
  #first: PartResult | undefined;
  #before = '';
  #after = '';
  readonly counts: Record<keyof VerdictCounts, number> = { belts: 0, fits: 0, tight: 0, fails: 0, 'not known': 0 };
  #compared = 0;
  readonly #comparedTwice = new Set<string>();
  fails = false;
  /** How many findings there are. */
  found = 0;

  /** `keepsChecked`: whether findings of checks are asked for here, or were taken as they came. */
  constructor(sheet: string, keepsChecked: boolean) {
    this.#keepsChecked = keepsChecked;
    this.#reports = new JoinedReports(sheet, belts.name);
  }

  add(part: PartResult): void {
    if (this.#first === undefined) {
      this.#first = part;
      const order = part.sheets.indexOf(belts.name);
      const beside = (wanted: (place: number) => boolean): string =>
        part.cells.flatMap(({ sheet, text }) => (wanted(part.sheets.indexOf(sheet)) ? [text] : [])).join('');
      this.#before = beside((place) => place < order);
      this.#after = beside((place) => place > order) + part.buying.text;
      for (const { sheet, count } of part.cells) if (sheet !== belts.name) this.found += count;
      this.found += part.buying.count;
    }
    this.#reports.add(part.report);
    const cells = part.cells.find(({ sheet }) => sheet === belts.name);
    if (this.#keepsChecked) this.#checked.add(part.checked.text);
    this.#cells.add(cells?.text ?? '');
    this.found += part.checked.count + (cells?.count ?? 0);
    for (const key of Object.keys(this.counts) as (keyof VerdictCounts)[]) this.counts[key] += part.counts[key];
    this.#compared += part.compared;
    for (const name of part.comparedTwice) this.#comparedTwice.add(name);
    this.fails ||= part.fails;
  }

  get report(): JoinedReports['joined'] {
    return this.#reports.joined;
  }

  /** Of the first part, as of all. */
  get first(): PartResult | undefined {
    return this.#first;
  }

  get compared(): number {
    return this.#compared + this.#comparedTwice.size;
  }

  /** All findings as the parts told them, but for so many of the last characters. */
  *findings(without = 0): Generator<string> {
    const after = this.#after;
    const last = after !== '' ? 'after' : this.#cells.isEmpty ? (this.#before === '' ? 'checked' : 'before') : 'cells';
    const cut = (name: typeof last): number => (name === last ? without : 0);
    yield* this.#checked.pieces(cut('checked'));
    yield this.#before.slice(0, this.#before.length - cut('before'));
    yield* this.#cells.pieces(cut('cells'));
    yield after.slice(0, after.length - cut('after'));
  }

  get hasFindings(): boolean {
    return this.#before + this.#after !== '' || !this.#checked.isEmpty || !this.#cells.isEmpty;
  }

  close(): void {
    this.#checked.close();
    this.#cells.close();
  }
}
