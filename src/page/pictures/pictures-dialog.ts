import { html } from 'lit-html';
import { belts } from '../../../sheets/belts/index.ts';
import { nameOf } from '../../pictures/belt-figures.ts';
import type { Part } from '../../pictures/picture.ts';
import { Belt } from '../../records/belt.ts';
import { factorNamed } from '../../what-if/known-factors.ts';
import type { Desk } from '../desk.ts';
import { attempt } from '../book-changes.ts';
import { PlanningDialog } from '../planning/planning-dialog.ts';
import type { DrawnAlike } from './drawn-alike.ts';
import type { PictureView } from './picture-figure.ts';
import { columnsTab, mapTab, overviewTab, spreadTab, sweepTab } from './picture-tabs.ts';
import { PicturesSession } from './pictures-session.ts';
import { editsTo } from '../what-if.ts';
import '../styles/pictures.css';

/** Pictures over the page: the fleet, columns, spreads, and what follows from inputs. */

const tabs = {
  overview: 'Overview',
  columns: 'Column against column',
  spread: 'Spread',
  sweep: 'Over an input',
  map: 'Verdict map',
} as const;
type Tab = keyof typeof tabs;

const contents: Readonly<Record<Tab, (view: PictureView) => ReturnType<typeof overviewTab>>> = {
  overview: overviewTab,
  columns: columnsTab,
  spread: spreadTab,
  sweep: sweepTab,
  map: mapTab,
};

/** Shows only some belts in their sheet, once it is on show. */
function showOnly(desk: Desk, records: readonly number[]): void {
  const column = desk.book.column(belts.name, belts.key);
  const names = records.map((record) => nameOf(desk.book, record));
  const [record = 0] = records;
  desk.goTo({ sheet: belts.name, record, column });
  // The sheet is drawn with the next frame; only then is its grid the one on show.
  requestAnimationFrame(() =>
    requestAnimationFrame(() => {
      desk.grid?.rowView?.only(column, names);
      desk.grid?.goTo({ sheet: belts.name, record, column });
      desk.changed();
    }),
  );
}

/** Enters the values of a part for its belt, in one step. */
function enterPart(desk: Desk, { records: [record], entered = [] }: Part): void {
  if (record === undefined) return;
  const belt = new Belt(desk.book, record);
  const edits = entered.flatMap(({ name, value }) => editsTo(belt, factorNamed(desk.book, name), value));
  const words = entered.map((one) => `${one.name} ${one.words}`).join(', ');
  if (!attempt(desk, () => desk.book.edit(edits, `enter ${words}`))) return;
  const [first] = edits;
  if (first !== undefined) desk.goTo(first);
  desk.say(`Entered: ${words}. Undo takes it back.`);
}

const typesText = (target: EventTarget | null): boolean =>
  target instanceof HTMLInputElement || target instanceof HTMLSelectElement || target instanceof HTMLTextAreaElement;

/** Tables in the place of pictures, or the other way round; the focus stays with the picture that it was in. */
function turnTables(session: PicturesSession, element: HTMLElement): void {
  const id = document.activeElement?.closest<HTMLElement>('[data-picture]')?.dataset['picture'];
  session.showTables(!session.tables);
  requestAnimationFrame(() =>
    requestAnimationFrame(() => {
      const figure =
        (id === undefined ? null : element.querySelector(`[data-picture="${id}"]`)) ??
        element.querySelector('[data-picture]');
      figure?.querySelector<HTMLElement>('.picture-table, [data-part][tabindex="0"]')?.focus();
    }),
  );
}

/** Opens them over the page; `drawn` is what draws, which was loaded for it. */
export function showPictures(desk: Desk, drawn: DrawnAlike): void {
  const session: PicturesSession = new PicturesSession(desk, () => dialog.redraw());
  const leave = (then: () => void): void => {
    dialog.element.close();
    then();
  };
  const view: PictureView = {
    session,
    drawn,
    goTo: (record) => dialog.leaveFor(belts.name, record, belts.key),
    enter: (part) => leave(() => enterPart(desk, part)),
    only: (records) => leave(() => showOnly(desk, records)),
  };
  const redraw = (): void => dialog.redraw();
  const dialog = new PlanningDialog<Tab>(
    desk,
    {
      title: 'Pictures',
      name: 'pictures',
      tabs: Object.keys(tabs) as Tab[],
      tabLabel: (tab) => tabs[tab],
      head: () => html`<div class="planning-head"><button class="button" aria-pressed=${session.tables}
          aria-keyshortcuts="t" title="Every picture as a table (T)" @click=${() =>
            session.showTables(!session.tables)}>Tables</button>
        <span class="soft">T turns pictures into tables and back. Arrow keys go from part to part, Enter chooses its
          belts.</span></div>`,
      said: () => session.said,
      body: (tab) => contents[tab](view),
      onTab: (tab) => {
        session.chosen = undefined;
        if (tab !== 'overview' && tab !== 'columns') session.askMissing(tab);
      },
      onClose: () => {
        window.removeEventListener('resize', redraw);
        session.end();
      },
    },
    'overview',
  );
  dialog.element.addEventListener('keydown', (event) => {
    if (event.key.toLowerCase() !== 't' || event.ctrlKey || event.metaKey || event.altKey || typesText(event.target))
      return;
    event.preventDefault();
    turnTables(session, dialog.element);
  });
  window.addEventListener('resize', redraw);
  if (desk.book.sheet(belts.name).rows.length > 0) session.askChances();
  dialog.show();
}
