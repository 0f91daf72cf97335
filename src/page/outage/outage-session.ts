import { Refusal } from '../../formula/define.ts';
import { type CrewsAndWindows, crewsAndWindows } from '../../outage/crews-and-windows.ts';
import type { FleetOutage, OutageTerms } from '../../outage/fleet-outage.ts';
import { outageCalendarFile, outagePicture } from '../../outage/outage-files.ts';
import type { GanttOptions } from '../../outage/gantt.ts';
import type { OutagePlan, RequestFault } from '../../outage/search/request.ts';
import type { Desk } from '../desk.ts';
import { bookType, download, fileName, madeOf } from '../downloading.ts';
import { Background } from '../background.ts';
import type { OutageAnswer, OutageTask } from '../workers/outage-worker.ts';

/** What the outage dialog knows so far, and the worker that finds out the rest. */

type Work = 'plan' | 'file';
/** Crews or windows. */
export type Kind = 'crews' | 'windows';

/**
 * Seconds that a search may take before the best that was found is given: at first, and when it is asked to take
 * longer.
 */
const patience = 20;
const longPatience = 120;

export class OutageSession {
  readonly desk: Desk;
  readonly #changed: () => void;
  /** Names that were unticked: what is new in the book counts. */
  readonly #without: Readonly<Record<Kind, Set<string>>> = { crews: new Set(), windows: new Set() };
  terms: OutageTerms = {
    scope: { which: 'all' },
    failing: false,
    aim: 'minimum lost production',
    step: 30,
    dueLimits: true,
  };
  /** Undefined when an assumption can't be used. */
  offered: CrewsAndWindows | undefined;
  fleet: FleetOutage | undefined;
  /** The best so far. */
  plan: OutagePlan | undefined;
  faults: readonly RequestFault[] = [];
  /** Whether the search was ended by the user. */
  cancelled = false;
  said = '';
  seconds = patience;
  #begun = 0;
  readonly running: Background<Work, OutageAnswer>;

  constructor(desk: Desk, changed: () => void) {
    this.desk = desk;
    this.#changed = changed;
    this.running = new Background((_, answer) => this.#take(answer), changed);
    try {
      this.offered = crewsAndWindows(desk.book);
    } catch (error) {
      // The plan refuses for the same reason, and says so.
      if (!(error instanceof Refusal)) throw error;
    }
  }

  /** Seconds since the search began. */
  get elapsed(): number {
    return (performance.now() - this.#begun) / 1000;
  }

  /** Plans anew; a plan that is under way is ended. */
  ask(terms: Partial<OutageTerms> = {}, seconds = patience): void {
    const { crews: _crews, windows: _windows, ...kept } = { ...this.terms, ...terms };
    const [crews, windows] = [this.#chosen('crews'), this.#chosen('windows')];
    this.terms = { ...kept, ...(crews === undefined ? {} : { crews }), ...(windows === undefined ? {} : { windows }) };
    this.fleet = undefined;
    this.plan = undefined;
    this.faults = [];
    this.cancelled = false;
    this.said = '';
    this.seconds = seconds;
    this.#begun = performance.now();
    this.#start('plan', { do: 'plan', state: this.desk.book.state, terms: this.terms, seconds });
  }

  searchLonger(): void {
    this.ask({}, longPatience);
  }

  /** Ends the search; the best plan so far stays. */
  cancel(): void {
    this.cancelled = true;
    this.running.stop('plan');
  }

  ticked(kind: Kind, name: string): boolean {
    return !this.#without[kind].has(name);
  }

  tick(kind: Kind, names: readonly string[], wanted: boolean): void {
    for (const name of names) {
      if (wanted) this.#without[kind].delete(name);
      else this.#without[kind].add(name);
    }
    this.ask();
  }

  /** Undefined when all are ticked. */
  #chosen(kind: Kind): readonly string[] | undefined {
    if (this.#without[kind].size === 0) return undefined;
    return this.offered?.[kind].map(({ name }) => name).filter((name) => this.ticked(kind, name));
  }

  /** Why no file can be written; undefined when one can. */
  get noFile(): string | undefined {
    if (this.running.has('plan'))
      return 'The search is running: wait for it to end, or cancel it and keep the best plan so far';
    if (this.plan === undefined) return 'No plan yet';
    return this.plan.planned.length === 0 ? 'Nothing is planned' : undefined;
  }

  /** The records of the belts that are planned, by their starts. */
  get plannedRecords(): readonly number[] {
    const records = new Map(this.fleet?.belts.map(({ job, record }) => [job.key, record]));
    return (this.plan?.planned ?? []).flatMap(({ key }) => records.get(key) ?? []);
  }

  saveCalendar(): void {
    if (this.plan === undefined) return;
    this.#save(outageCalendarFile(this.desk.book.state, this.plan, Date.now()), 'text/calendar', 'ics');
  }

  savePicture(lanes: GanttOptions['lanes']): void {
    if (this.fleet === undefined || this.plan === undefined) return;
    this.#save(outagePicture(this.desk.book.state, this.fleet, this.plan, { lanes }), 'image/svg+xml', 'svg');
  }

  saveWorkbook(): void {
    const {
      fleet,
      plan,
      desk: {
        book: { state },
      },
    } = this;
    if (fleet === undefined || plan === undefined || this.running.has('file')) return;
    this.said = '';
    this.#start('file', { do: 'file', state, from: madeOf(state.title), fleet, plan });
  }

  #save(content: Uint8Array | string, type: string, ending: string): void {
    const name = fileName(this.desk.book.state.title, ` outage plan.${ending}`);
    download(content, type, name);
    this.said = `${name} was written.`;
    this.#changed();
  }

  end(): void {
    this.running.end();
  }

  #start(work: Work, task: OutageTask): void {
    this.running.start(
      work,
      new Worker(new URL('../workers/outage-worker.ts', import.meta.url), { type: 'module' }),
      task,
    );
  }

  #take(answer: OutageAnswer): void {
    switch (answer.done) {
      case 'asked':
        this.fleet = answer.fleet;
        break;
      case 'found':
        this.plan = answer.plan;
        break;
      case 'faults':
        this.faults = answer.faults;
        break;
      case 'file':
        this.#save(answer.bytes, bookType, 'xlsx');
        break;
    }
  }
}
