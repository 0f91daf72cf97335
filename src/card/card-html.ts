import { escaped } from '../sheet/words.ts';
import { paperSvg } from '../drawing/paper-svg.ts';
import { shopDrawing } from '../drawing/shop-drawing.ts';
import { paperSizes } from '../drawing/template-tiles.ts';
import type { CardPaper } from './card-flow.ts';
import { type CardForm, sectionsOf } from './card-form.ts';
import { footText } from './card-sections.ts';
import type { Cell, DrawingSection, Section } from './section.ts';
import type { JobCard } from './job-card.ts';
import { darkRuns, qrMargin } from './qr.ts';

/** Cards as one document for a browser to show and print: black on white whatever the page around it wears. */

const margin = 12;

const look = (paper: CardPaper): string =>
  `
@page { size: ${paper} portrait; margin: ${margin}mm; @bottom-right { content: 'page ' counter(page) ' of ' ` +
  `counter(pages); font: 8pt 'Liberation Sans', Arial, Helvetica, sans-serif; } }
@page broadside { size: ${paper} landscape; margin: ${margin}mm; }
:root { color-scheme: only light; }
* { box-sizing: border-box; }
body { background: #fff; color: #000; font: 9pt/1.35 'Liberation Sans', Arial, Helvetica, sans-serif; margin: 0; }
.card { margin: 0 auto; max-width: 190mm; padding: 6mm 0; }
.card + .card { break-before: page; }
h1 { font-size: 12pt; font-weight: 400; margin: 0; }
h1 b { display: block; font-size: 21pt; line-height: 1.15; overflow-wrap: anywhere; }
h2 { break-after: avoid; font-size: 12pt; margin: 5mm 0 1.5mm; }
.head { align-items: flex-start; display: flex; gap: 4mm; justify-content: space-between; }
.head svg { flex: none; height: 27mm; width: 27mm; }
.pairs { display: grid; gap: 1mm 4mm; grid-template-columns: max-content 1fr max-content 1fr; margin: 2mm 0; }
.pairs dt { font-size: 8pt; }
.pairs dd { font-weight: 700; margin: 0; overflow-wrap: anywhere; }
p { margin: 1.5mm 0; }
.strong { border: 0.7mm solid #000; break-inside: avoid; font-weight: 700; padding: 1.5mm 2mm; }
.blanks { display: grid; grid-template-columns: 1fr 1fr; margin: 2mm 0; }
.blanks div { border: 0.25mm solid #000; font-size: 8pt; height: 12mm; margin: 0 -0.25mm -0.25mm 0; padding: 0.6mm ` +
  `1.5mm; }
table { border-collapse: collapse; margin: 1mm 0 2mm; table-layout: fixed; width: 100%; }
thead { display: table-header-group; }
.whole { break-inside: avoid; }
tr { break-inside: avoid; }
th { border-bottom: 0.35mm solid #000; font-size: 8pt; padding: 1mm; text-align: left; vertical-align: bottom; }
td { border-bottom: 0.15mm solid #888; overflow-wrap: anywhere; padding: 0.8mm 1mm; vertical-align: top; }
td div + div { margin-top: 0.3mm; }
.end { text-align: right; }
.tick, .sign, .value { border: 0.25mm solid #000; display: block; }
.tick { height: 4mm; width: 4mm; }
.sign { height: 9mm; }
.value { height: 5mm; }
.ticks { display: flex; flex-wrap: wrap; list-style: none; margin: 1mm 0 3mm; padding: 0 0.2mm 0.2mm 0; }
.ticks li { align-items: center; border: 0.2mm solid #555; break-inside: avoid; display: flex; font-weight: 700; ` +
  `gap: 1.5mm; height: 8mm; justify-content: flex-end; margin: 0 -0.2mm -0.2mm 0; padding: 0 1.5mm; width: 15mm; }
.drawing { break-after: page; break-before: page; page: broadside; }
.drawing svg { display: block; height: auto; width: 100%; }
.foot { border-top: 0.15mm solid #888; font-size: 8pt; margin-top: 4mm; padding-top: 1mm; }
@media print { .card { max-width: none; padding: 0; } }
@media screen { .drawing { margin: 4mm 0; } }
`;

/** A table of so few rows is not parted over pages. */
const mostWhole = 10;

function cellHtml(cell: Cell): string {
  if ('blank' in cell) return `<span class="${cell.blank}"></span>`;
  return cell
    .map(({ text, bold }) => `<div>${bold === true ? `<b>${escaped(text)}</b>` : escaped(text)}</div>`)
    .join('');
}

function codeSvg(code: readonly (readonly boolean[])[], belt: string): string {
  const all = code.length + 2 * qrMargin;
  const squares = code
    .flatMap((row, down) =>
      darkRuns(row).map(({ from, count }) => `M${from + qrMargin} ${down + qrMargin}h${count}v1h-${count}z`),
    )
    .join('');
  return (
    `<svg viewBox="0 0 ${all} ${all}" shape-rendering="crispEdges" role="img" aria-label="QR code of the name: ` +
    `${escaped(belt)}"><path d="${squares}"/></svg>`
  );
}

function drawingHtml({ joint, unit, belt, series, standing }: DrawingSection, paper: CardPaper, mark: string): string {
  const { width, height } = paperSizes[paper];
  const drawing = shopDrawing(joint, {
    ...standing,
    unit,
    belt,
    series,
    width: width - 2 * margin,
    // A little lower than the page: what fills it exactly is pushed to the next one.
    height: height - 2 * margin - 4,
  });
  return `<div class="drawing">${paperSvg(drawing, mark)}</div>`;
}

function sectionHtml(section: Section, paper: CardPaper, mark: string): string {
  switch (section.type) {
    case 'head':
      return (
        `<div class="head"><h1>${escaped(section.title)}<b>${escaped(section.belt)}</b></h1>` +
        `${section.code === undefined ? '' : codeSvg(section.code, section.belt)}</div>`
      );
    case 'title':
      return `<h2>${escaped(section.text)}</h2>`;
    case 'note':
      return `<p${section.strong === true ? ' class="strong"' : ''}>${escaped(section.text)}</p>`;
    case 'pairs':
      return (
        `<dl class="pairs">` +
        `${section.pairs
          .map(({ name, value }) => `<dt>${escaped(name)}</dt><dd>` + `${escaped(value)}</dd>`)
          .join('')}</dl>`
      );
    case 'blanks':
      return `<div class="blanks">${section.names.map((name) => `<div>${escaped(name)}</div>`).join('')}</div>`;
    case 'ticks':
      return (
        `<ol class="ticks">` +
        `${section.labels.map((label) => `<li>${escaped(label)}<span ` + `class="tick"></span></li>`).join('')}</ol>`
      );
    case 'table': {
      const all = section.columns.reduce((sum, { width }) => sum + width, 0);
      const end = (index: number): string => (section.columns[index]?.align === 'end' ? ' class="end"' : '');
      return [
        `<table${section.rows.length <= mostWhole ? ' class="whole"' : ''}><colgroup>` +
          `${section.columns
            .map(({ width }) => `<col style="width:${((100 * width) / all).toFixed(2)}%">`)
            .join('')}</colgroup>`,
        `<thead><tr>` +
          `${section.columns
            .map(({ title }, index) => `<th${end(index)}>${escaped(title)}</th>`)
            .join('')}</tr></thead>`,
        `<tbody>${section.rows
          .map((row) => `<tr>${row.map((cell, index) => `<td${end(index)}>${cellHtml(cell)}</td>`).join('')}</tr>`)
          .join('\n')}</tbody></table>`,
      ].join('');
    }
    case 'drawing':
      return drawingHtml(section, paper, mark);
  }
}

/** The cards one after the other. */
export function cardsHtml(cards: readonly JobCard[], paper: CardPaper, form: CardForm = 'long'): string {
  const title =
    cards.length === 1
      ? `Job card: ${footText(cards[0] ?? { belt: '', book: '', invented: false })}`
      : `Job cards of ${cards.length} belts`;
  return [
    `<!doctype html><html lang="en"><head><meta ` +
      `charset="utf-8"><title>${escaped(title)}</title><style>${look(paper)}</style></head><body>`,
    ...cards.map((card, at) => {
      const sections = sectionsOf(card, form);
      const parts = sections.map((section, index) => sectionHtml(section, paper, `card-${at}-${index}`));
      const last = sections.findLastIndex(({ type }) => type === 'title');
      // What comes last is not parted, so that no page holds the foot alone.
      return (
        `<article class="card">${parts.slice(0, last).join('\n')}<section ` +
        `class="whole">${parts.slice(last).join('\n')}<p ` +
        `class="foot">${escaped(footText(card))}</p></section></article>`
      );
    }),
    '</body></html>',
  ].join('\n');
}
