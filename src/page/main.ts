import { followMark } from './number-mark.ts';
import { render } from 'lit-html';
import { engineKeyNotice } from '../formula/engine-licence.ts';
import { today } from '../workbook/present-day.ts';
import { RefusedChange } from '../workbook/refused-change.ts';
import { Desk } from './desk.ts';
import { FindingsFeed } from './findings-feed.ts';
import { FormulaHint } from './formula-hint.ts';
import { gridKeyNotice } from './grid/grid-licence.ts';
import { Grids } from './grid/grids.ts';
import { keepForOffline } from './offline.ts';
import { holdBook } from './one-window.ts';
import { Importing } from './importing.ts';
import { listenToKeys } from './keyboard.ts';
import { beginStart, endStart, keepFailure, openedBook, takeFailure } from './opened-book.ts';
import { paletteStyle } from './palette.ts';
import { keepPreferences, recallPreferences } from './preferences.ts';
import { Pointing } from './pointing.ts';
import { ReferenceMarks } from './reference-marks.ts';
import { printSheets } from './printing.ts';
import { haveBook } from './library/window-book.ts';
import { dayNote, followDay } from './later-opening.ts';
import { importGiven, type OpenedLibrary, openLibrary, useLibrary } from './opened-library.ts';
import { keepSaved, lookedAt, type OpenedStore, onlyShown, openStore, setAside, shownStore } from './saving.ts';
import { SkewFeed } from './skew-feed.ts';
import { endReading, unfinishedReading } from './unfinished-reading.ts';
import { FirstRows } from './views/first-rows.ts';
import { page } from './views/page.ts';
import './styles/base.css';
import './styles/bars.css';
import './styles/grid.css';
import './styles/panels.css';
import './styles/what-if.css';
import './styles/working.css';
import './styles/pull.css';
import './styles/skew.css';
import './styles/dialogs.css';
import './styles/help.css';
import './styles/import.css';
import './styles/library.css';
import './styles/print.css';

/** Starts the page: the palette, the book, the views that follow it. */

function addPalette(): void {
  const style = document.createElement('style');
  style.textContent = paletteStyle();
  document.head.append(style);
}

/** What no part of the page has caught is reported, so that nobody goes on typing into a part that has stopped. */
function tellFaults(desk: Desk): void {
  const tell = (error: unknown): void => {
    if (error instanceof RefusedChange) desk.say(error.message, 'problem');
    else if (error instanceof Error)
      desk.say(`A part of the page failed: ${error.message}. Reload the page if it stops responding.`, 'problem');
  };
  window.addEventListener('error', ({ error }: ErrorEvent) => tell(error));
  window.addEventListener('unhandledrejection', ({ reason }: PromiseRejectionEvent) => tell(reason));
}

/** A stored book that the page can't show must not lock it: it is left alone, and the page starts without it, once. */
function failed(host: HTMLElement, before: string | undefined, error: unknown): void {
  const why = (error instanceof Error ? error.message : String(error)).replace(/\.+$/, '');
  if (before === undefined && keepFailure(why)) location.reload();
  else host.textContent = `The page could not be started: ${why}. What this browser has stored is left unchanged.`;
}

/** Saves the book from now on where this window may; a version of its past and another window's book are only shown. */
function keepBook(desk: Desk, library: OpenedLibrary, opened: OpenedStore, own: boolean): void {
  if (library.shown !== undefined) {
    lookedAt(desk, library.shown.why);
    return;
  }
  if (own) keepSaved(desk, opened);
  else onlyShown(desk, opened);
  haveBook(library.id);
  useLibrary(desk, library, opened.kept, own && opened.problem === undefined);
}

/** Tells of every change of the room that there is. */
function followRoom(sheets: HTMLElement, changed: () => void): void {
  window.addEventListener('resize', changed);
  // The panels go by the room that the bars leave, which changes when a bar comes or goes.
  new ResizeObserver(changed).observe(sheets);
}

async function start(host: HTMLElement, failure: string | undefined): Promise<void> {
  addPalette();
  const first = new FirstRows(host);
  const library = await openLibrary();
  const { id, shown } = library;
  const own = shown === undefined && (await holdBook(id, () => location.reload()));
  const opened = shown === undefined ? setAside(await openStore(id, first), failure) : shownStore(id, shown.state);
  const [careful, unfinished] = [beginStart(), unfinishedReading()];
  window.addEventListener('pagehide', endReading);
  const { book, told, problem } = await openedBook(opened.kept, careful, first);
  const desk = new Desk(book);
  if (opened.kept !== undefined) desk.saving = { state: 'saved', at: opened.kept.at };
  if (shown === undefined && opened.kept !== undefined) desk.dayNote = dayNote(book, today(opened.kept.at));
  followDay(book, (note) => {
    desk.dayNote = note;
    desk.changed();
  });
  recallPreferences(desk);
  // Should it have been a panel that ended the last start, the book opens without it.
  if (careful) desk.view = undefined;
  keepPreferences(desk);
  followMark(book);
  const grids = new Grids(desk);
  const [importing, skews] = [new Importing(desk), new SkewFeed(desk)];
  new FindingsFeed(desk).listen();
  const dark = window.matchMedia('(prefers-color-scheme: dark)');
  const scheme = (): 'light' | 'dark' => (desk.theme === 'auto' ? (dark.matches ? 'dark' : 'light') : desk.theme);

  let waiting = false;
  const draw = (): void => {
    waiting = false;
    document.documentElement.dataset['scheme'] = scheme();
    document.title = desk.book.state.title === '' ? 'Skewbook' : `${desk.book.state.title} · Skewbook`;
    render(page(desk, { importing, skews }, grids.element), host);
    grids.show(scheme());
  };
  const soon = (): void => {
    if (waiting) return;
    waiting = true;
    requestAnimationFrame(draw);
  };
  desk.listen(soon);
  desk.book.listen(soon);
  dark.addEventListener('change', soon);
  followRoom(grids.element, soon);
  importGiven(desk, importing);
  listenToKeys(desk);
  new FormulaHint(desk).listen();
  new Pointing(desk).listen(grids.element);
  new ReferenceMarks(desk).listen();
  printSheets(desk);
  keepBook(desk, library, { ...opened, problem: opened.problem ?? problem }, own);
  tellFaults(desk);
  first.end();
  draw();
  setTimeout(endStart);
  for (const notice of [library.told, told, unfinished, engineKeyNotice(), gridKeyNotice(grids.element)])
    if (notice !== undefined) desk.say(notice, 'problem');
  keepForOffline();
}

const host = document.querySelector<HTMLElement>('#page');
if (host !== null) {
  const before = takeFailure();
  start(host, before).catch((error: unknown) => failed(host, before, error));
}
