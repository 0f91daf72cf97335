import { render } from 'lit-html';
import { demoBook } from '../workbook/demo.ts';
import { Workbook } from '../workbook/workbook.ts';
import { Desk } from './desk.ts';
import { Grids } from './grid/grids.ts';
import { listenToKeys } from './keyboard.ts';
import { paletteStyle } from './palette.ts';
import { page } from './views/page.ts';
import './styles/base.css';
import './styles/bars.css';
import './styles/grid.css';

/** Starts the page: the palette, the book, the views that follow it. */

function addPalette(): void {
  const style = document.createElement('style');
  style.textContent = paletteStyle();
  document.head.append(style);
}

function start(host: HTMLElement): void {
  addPalette();
  const desk = new Desk(new Workbook(demoBook('metric')));
  const grids = new Grids(desk);
  const dark = window.matchMedia('(prefers-color-scheme: dark)');
  const scheme = (): 'light' | 'dark' => (desk.theme === 'auto' ? (dark.matches ? 'dark' : 'light') : desk.theme);

  let waiting = false;
  const draw = (): void => {
    waiting = false;
    document.documentElement.dataset['scheme'] = scheme();
    document.title = desk.book.state.title === '' ? 'Skewbook' : `${desk.book.state.title} · Skewbook`;
    render(page(desk, grids.element), host);
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
  listenToKeys(desk);
  draw();
}

const host = document.querySelector<HTMLElement>('#page');
if (host !== null) start(host);
