import { rule } from '../drawing/shop-marks.ts';
import { type CardFlow, margin, words } from './card-flow.ts';
import {
  type LaidLine,
  type LaidRow,
  type LaidTable,
  leading,
  pad,
  type Place,
  rowHeight,
  size,
  textLine,
} from './card-table.ts';

/** A card's tables on its sheets. */

/** A table no higher than this is not parted. */
export const keptWhole = 80;

/** A table; it goes on over sheets with its head repeated. */
export function drawTable(flow: CardFlow, { places, heads, headHeight, rows, height: whole }: LaidTable): void {
  const head = (): void => {
    heads.forEach((lines, index) =>
      cellText(
        flow,
        places[index],
        lines.map((text) => ({ text, bold: true })),
        size.small,
      ),
    );
    flow.y += headHeight;
    flow.add(rule('edge', { x: margin.side, y: flow.y }, { x: margin.side + flow.width, y: flow.y }));
  };
  flow.room(whole <= keptWhole ? whole : headHeight + Math.min(rowHeight(rows[0] ?? []), 40));
  flow.y += 0.5;
  head();
  for (const full of rows) {
    let row = full;
    for (;;) {
      const height = rowHeight(row);
      if (flow.y + height <= flow.bottom) {
        tableRow(flow, places, row, height);
        break;
      }
      const fits = Math.floor((flow.bottom - flow.y - 2 * pad.y) / textLine);
      // A row higher than a page is parted, any other goes on the next one as a whole.
      if (height > flow.bottom - margin.top - headHeight && fits >= 3) {
        tableRow(
          flow,
          places,
          row.map((cell) => (typeof cell === 'string' ? [] : cell.slice(0, fits))),
          flow.bottom - flow.y,
        );
        row = row.map((cell) => (typeof cell === 'string' ? cell : cell.slice(fits)));
      }
      flow.end();
      flow.begin();
      head();
    }
  }
  flow.y += 1.5;
}

function cellText(flow: CardFlow, place: Place | undefined, lines: readonly LaidLine[], textSize: number): void {
  if (place === undefined) return;
  const x = place.align === 'end' ? place.x + place.width - pad.x : place.x + pad.x;
  lines.forEach(({ text, bold }, index) => {
    if (text !== '')
      flow.add(
        words(
          { x, y: flow.y + pad.y + (index + 0.5) * textSize * leading },
          text,
          textSize,
          bold,
          place.align ?? 'start',
        ),
      );
  });
}

function tableRow(flow: CardFlow, places: readonly Place[], row: LaidRow, height: number): void {
  row.forEach((cell, index) => {
    const place = places[index];
    if (place === undefined) return;
    if (typeof cell !== 'string') cellText(flow, place, cell, size.text);
    else if (cell === 'tick')
      flow.add({ type: 'box', pen: 'mark', box: { x: place.x + pad.x, y: flow.y + 0.8, width: 4, height: 4 } });
    else
      flow.add({
        type: 'box',
        pen: 'mark',
        box: {
          x: place.x + 0.6,
          y: flow.y + 0.6,
          width: place.width - 0.6,
          height: (cell === 'sign' ? Math.min(height, 13) : height) - 1.2,
        },
      });
  });
  flow.y += height;
  flow.add(rule('faint', { x: margin.side, y: flow.y }, { x: margin.side + flow.width, y: flow.y }));
}
