import { render } from 'lit-html';
import { engineKeyNotice } from '../formula/engine-licence.ts';
import { today } from '../workbook/present-day.ts';
import { RefusedChange } from '../workbook/refused-change.ts';
import { Desk } from './desk.ts';
import { FindingsFeed } from './findings-feed.ts';
import { FormulaHint } from './formula-hint.ts';
import { gridKeyNotice } from './grid/grid-licence.ts';
import { Grids } from './grid/grids.ts';
import { holdBook } from './one-window.ts';
import { Importing } from './importing.ts';
import { listenToKeys } from './keyboard.ts';
import { beginStart, endStart, openedBook } from './opened-book.ts';
import { paletteStyle } from './palette.ts';
import { keepPreferences, recallPreferences } from './preferences.ts';
import { Pointing } from './pointing.ts';
import { printSheets } from './printing.ts';
import { haveBook } from './library/window-book.ts';
import { dayNote, followDay } from './later-opening.ts';
import { importFromDisk, openLibrary, useLibrary } from './opened-library.ts';
import { keepSaved, lookedAt, onlyShown, openStore, shownStore } from './saving.ts';
import { SkewFeed } from './skew-feed.ts';
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

async function start(host: HTMLElement): Promise<void> {
  addPalette();
  const library = await openLibrary();
  const { id, shown } = library;
  const own = shown === undefined && (await holdBook(id, () => location.reload()));
  const opened = shown === undefined ? await openStore(id) : shownStore(id, shown.state);
  const careful = beginStart();
  const { book, told, problem } = await openedBook(opened.kept, careful, host);
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
  window.addEventListener('resize', soon);
  importFromDisk(desk, importing);
  listenToKeys(desk);
  new FormulaHint(desk).listen();
  new Pointing(desk).listen(grids.element);
  printSheets(desk);
  if (shown !== undefined) lookedAt(desk, shown.why);
  else if (own) keepSaved(desk, { ...opened, problem: opened.problem ?? problem });
  else onlyShown(desk, opened);
  if (shown === undefined) haveBook(id);
  if (shown === undefined) useLibrary(desk, library, opened.kept, own && (opened.problem ?? problem) === undefined);
  tellFaults(desk);
  draw();
  setTimeout(endStart);
  for (const notice of [library.told, told, engineKeyNotice(), gridKeyNotice(grids.element)])
    if (notice !== undefined) desk.say(notice, 'problem');
}

const host = document.querySelector<HTMLElement>('#page');
if (host !== null) void start(host);
