import { html, nothing, type TemplateResult } from 'lit-html';
import { ref } from 'lit-html/directives/ref.js';
import { repeat } from 'lit-html/directives/repeat.js';
import { isFault, type Value } from '../../formula/values.ts';
import { keyValue } from '../../records/input-issues.ts';
import type { Explanation } from '../../workbook/explanation.ts';
import { declarationOf, namedSheetOf } from '../../workbook/declared.ts';
import { type CellPlace, placeKey } from '../../workbook/place.ts';
import { figuresPutIn, governingMark } from '../../workbook/put-in-figures.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { contentText, valueText } from '../cell-text.ts';
import type { Desk } from '../desk.ts';
import { type Mark, sourceMarks } from '../../sheet/source-marks.ts';
import { valueMarks, markBadge } from '../source-marks.ts';
import { activate, activePath, type Branch, follow, formerValue, openAll, partsOf, turn } from '../working.ts';

/** The tree of a value, walked by arrows as trees are (WAI-ARIA Authoring Practices, tree view). */

function shown(book: Workbook, { place, kind, unit }: Explanation, value: Value): string {
  if (value === null || value === '') return 'empty';
  const column = book.columnAt(place);
  const text =
    column === undefined
      ? contentText(isFault(value) ? value.code : value, kind)
      : valueText(value, kind, column.look, book.units, true);
  return typeof value !== 'number' || unit === '' ? text : unit === '°' ? `${text}°` : `${text} ${unit}`;
}

/** Whose value it is: the record's name; none for named values, which have but one. */
export function recordTitle(book: Workbook, { place }: Explanation): string {
  if (namedSheetOf(place.sheet) !== undefined) return '';
  if (declarationOf(place.sheet) === undefined) return place.sheet;
  const name = keyValue(book, place);
  return name === null || isFault(name) ? '' : String(name);
}

/** A cell's place, its sheet left out where that is the root's. */
const cellText = ({ cell, place }: Explanation, root: CellPlace): string =>
  place.sheet === root.sheet ? cell.slice(cell.lastIndexOf('!') + 1) : cell;

/** A formula over column names, the names set apart. */
const words = (formula: string): TemplateResult =>
  html`<code class="working-formula">${formula
    .split(/((?:'[^']+'|[\p{L}_][\p{L}\p{N}_.]*)?\[[^\]]*\])/u)
    .map((piece) => (piece.endsWith(']') ? html`<b>${piece}</b>` : piece))}</code>`;

function details(book: Workbook, item: Explanation): TemplateResult | typeof nothing {
  const formula = item.words ?? item.formula;
  // A source that is only a mark stands beside the value already.
  const sources = item.sources.filter(
    (source) => item.origin === 'computed' || !sourceMarks(source).includes(source as Mark),
  );
  if (formula === undefined && sources.length === 0) return nothing;
  const figures = figuresPutIn(book, item.place);
  return html`<div class="working-details">
    ${isFault(item.value) ? html`<p class="working-source why">${item.value.code}: ${item.value.message}</p>` : nothing}
    ${formula === undefined ? nothing : words(formula)}
    ${
      figures === undefined
        ? nothing
        : html`<code class="working-formula" title=${
            figures.text.includes(governingMark) ? `${governingMark} governs` : 'with its figures'
          }>= ${figures.text}</code>`
    }
    ${figures?.table === undefined ? nothing : html`<p class="working-source">${figures.table}</p>`}
    ${sources.map((source) => html`<p class="working-source">${sourceMarks(source).map(markBadge)} ${source}</p>`)}
  </div>`;
}

const isOther = ({ place }: Explanation, root: CellPlace): boolean =>
  place.sheet !== root.sheet || place.record !== root.record;

/** A part as it is read out: of another record than the root's, whose it is. */
function spoken(book: Workbook, item: Explanation, root: CellPlace): string {
  const title = isOther(item, root) || item.place.column === root.column ? recordTitle(book, item) : '';
  const marks = valueMarks(book, item);
  return [
    `${item.header}${title === '' ? '' : ` of ${title}`}: ` +
      `${isFault(item.value) ? item.value.message : shown(book, item, item.value)}`,
    ...marks,
    item.words ?? item.formula ?? '',
    item.cell,
  ]
    .filter((text) => text !== '')
    .join(', ');
}

/** Branches by the element that shows them, for keys and clicks. */
const branches = new WeakMap<Element, { readonly branch: Branch; readonly siblings: readonly Branch[] }>();

const itemsOf = (tree: Element): HTMLElement[] => [...tree.querySelectorAll<HTMLElement>('[role=treeitem]')];

function onKey(desk: Desk, root: CellPlace, event: KeyboardEvent): void {
  if (event.altKey || event.ctrlKey || event.metaKey) return;
  const tree = event.currentTarget as HTMLElement;
  const items = itemsOf(tree);
  const at = items.indexOf(document.activeElement as HTMLElement);
  const item = items[at];
  const entry = item === undefined ? undefined : branches.get(item);
  if (item === undefined || entry === undefined) return;
  const { branch, siblings } = entry;
  const parent = item.parentElement?.closest<HTMLElement>('[role=treeitem]');
  const go = (target: HTMLElement | null | undefined): void => target?.focus();
  switch (event.key) {
    case 'ArrowDown':
      go(items[at + 1]);
      break;
    case 'ArrowUp':
      go(items[at - 1]);
      break;
    case 'Home':
      go(items[0]);
      break;
    case 'End':
      go(items.at(-1));
      break;
    case 'ArrowRight':
      if (branch.expandable && !branch.open) turn(desk, branch);
      else if (branch.open) go(items[at + 1]);
      break;
    case 'ArrowLeft':
      if (branch.open) turn(desk, branch);
      else go(parent);
      break;
    case ' ':
      if (branch.expandable) turn(desk, branch);
      break;
    case '*':
      openAll(desk, siblings);
      break;
    case 'Escape':
      desk.grid?.focus();
      break;
    case 'Enter':
      follow(desk, root, branch.item.place);
      break;
    default: {
      if (event.key.length !== 1) return;
      const begins = (candidate: HTMLElement): boolean =>
        branches.get(candidate)?.branch.item.header.toLowerCase().startsWith(event.key.toLowerCase()) === true;
      go([...items.slice(at + 1), ...items.slice(0, at)].find(begins));
    }
  }
  event.preventDefault();
  event.stopPropagation();
}

function row(desk: Desk, root: CellPlace, { item, level, expandable, open }: Branch): TemplateResult {
  const { book } = desk;
  const title = recordTitle(book, item);
  const former = formerValue(item);
  return html`
    <div class="working-row" style="padding-left:${8 + level * 14}px">
      <span class="working-twist" aria-hidden="true">${expandable ? (open ? '▾' : '▸') : ''}</span>
      <span class="working-line">
        <span class="working-name">${item.header}</span>${
          isOther(item, root) && title !== ''
            ? html`<span
          class="working-whose">of ${title}</span>`
            : nothing
        }
        <span class="working-value ${isFault(item.value) ? 'why' : ''}" title=${
          isFault(item.value)
            ? item.value.message
            : typeof item.value === 'number'
              ? `in full: ${contentText(item.value, item.kind)}`
              : nothing
        }>${shown(book, item, item.value)}</span>
        ${former === undefined ? nothing : html`<span class="working-former">was ${shown(book, item, former)}</span>`}
        ${valueMarks(book, item).map(markBadge)}
      </span>
      <span class="working-cell" title="Go to ${item.cell}">${cellText(item, root)}</span>
    </div>`;
}

export function workingTree(desk: Desk, tree: Branch): TemplateResult {
  const { book } = desk;
  const root = tree.item.place;
  const visible = new Set<string>();
  const collect = (branch: Branch, above: ReadonlySet<string>): void => {
    visible.add(branch.path);
    if (branch.open)
      for (const part of partsOf(book, branch, above)) collect(part, new Set([...above, placeKey(part.item.place)]));
  };
  collect(tree, new Set([placeKey(root)]));
  const active = visible.has(activePath()) ? activePath() : tree.path;

  const node = (branch: Branch, siblings: readonly Branch[], above: ReadonlySet<string>): TemplateResult => {
    const parts = branch.open ? partsOf(book, branch, above) : [];
    const onClick = (event: MouseEvent): void => {
      event.stopPropagation();
      const target = event.target as Element;
      if (branch.expandable && target.closest('.working-cell') === null) turn(desk, branch);
      else if (target.closest('.working-row') !== null) follow(desk, root, branch.item.place);
    };
    return html`<li
      role="treeitem" aria-level=${branch.level + 1} aria-expanded=${branch.expandable ? branch.open : nothing}
        aria-label=${spoken(book, branch.item, root)}
      tabindex=${branch.path === active ? 0 : -1} ?data-enter=${branch.path === active}
      ${ref((element) => {
        if (element !== undefined) branches.set(element, { branch, siblings });
      })} @click=${onClick}
      @focus=${() => activate(desk, branch.path)}>
      ${row(desk, root, branch)}
      ${branch.open || branch.level === 0 ? details(desk.book, branch.item) : nothing}
      ${
        parts.length === 0
          ? nothing
          : html`<ul role="group">${repeat(
              parts,
              ({ path }) => path,
              (part) => node(part, parts, new Set([...above, placeKey(part.item.place)])),
            )}</ul>`
      }
    </li>`;
  };
  return html`<ul class="working-tree" role="tree" aria-label="Calculation of ${tree.item.header}"
    @keydown=${(event: KeyboardEvent) =>
      onKey(desk, root, event)}>${node(tree, [tree], new Set([placeKey(root)]))}</ul>`;
}
