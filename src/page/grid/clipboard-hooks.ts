import type { GridSettings } from 'handsontable/base';
import type { Desk } from '../desk.ts';
import { enter } from '../editing.ts';
import type { CellPlace } from '../../workbook/place.ts';
import type { Block, GridRange } from './block.ts';
import { copyBlock, leaveCut, pasteBlock, type SeenSheet } from './clipboard.ts';
import { fillBlock } from './filling.ts';

/** What the grid is to do with its own ways of typing, copying, pasting and filling: hand them to the book. */

interface HookPorts {
  /** The cell in a row on the screen and a column of the sheet. */
  readonly place: (row: number, position: number) => CellPlace;
  readonly selected: () => Block;
  readonly block: (range: GridRange) => Block;
  readonly seen: SeenSheet;
  readonly editing: () => boolean;
  readonly render: () => void;
  readonly select: (source: GridRange, target: GridRange) => void;
}

const asText = (value: unknown): string => (value === null || value === undefined ? '' : String(value));

export function clipboardHooks(desk: Desk, ports: HookPorts): GridSettings {
  return {
    beforeChange: (changes, source) => {
      // What is cut stays until it is pasted somewhere.
      if (source === 'CopyPaste.cut') return false;
      const edits = changes.flatMap((change) => {
        if (change === null) return [];
        const [row, position, , text] = change;
        return [{ ...ports.place(row, Number(position)), text: asText(text) }];
      });
      enter(desk, edits);
      return false;
    },
    beforeCopy: (data) => {
      data.splice(0, data.length, ...copyBlock(desk.book, ports.selected()));
      ports.render();
    },
    beforeCut: (data) => {
      data.splice(0, data.length, ...copyBlock(desk.book, ports.selected(), true));
      ports.render();
    },
    beforePaste: (data) => {
      pasteBlock(
        desk,
        ports.selected(),
        data.map((row) => row.map(asText)),
        ports.seen,
      );
      ports.render();
      return false;
    },
    beforeKeyDown: ({ key }) => {
      if (key === 'Escape' && !ports.editing() && leaveCut()) ports.render();
    },
    beforeAutofill: (_, source, target, direction) => {
      fillBlock(desk, ports.block(source), ports.block(target), direction === 'up' || direction === 'left');
      ports.select(source, target);
      // The hook's declared answer is rows to fill in; false is what the grid takes as "done already".
      return false as unknown as [];
    },
  };
}
