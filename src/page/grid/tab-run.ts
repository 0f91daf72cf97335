import type Handsontable from 'handsontable/base';

/**
 * Typing along a row: Tab goes on to the right, Enter goes back below the cell where the Tabs began, as in any
 * spreadsheet. From a text that is being typed Tab goes on to the next column that is to be filled in: what is typed
 * along a row of inputs must not land in a verdict between them.
 */

/** Where the Tabs began and where the last one led, on the screen. */
interface Run {
  readonly row: number;
  readonly first: number;
  readonly end: number;
}

/**
 * Follows the Tabs of a grid. Behind the last column there is nothing to go to: the grid would let go of the cell and
 * of the keys in the middle of typing, so `beyond` says what to do there. `computed` says which columns the sheet works
 * out.
 */
export function followTabs(
  hot: Handsontable,
  beyond: (row: number, column: number) => void,
  computed: (column: number) => boolean,
): void {
  let run: Run | undefined;
  let typing = false;
  /** How far the next column is that is to be filled in; 1 where there is none. */
  const toInput = (from: number): number => {
    for (let column = from + 1; column < hot.countCols(); column += 1) if (!computed(column)) return column - from;
    return 1;
  };
  const selected = (): readonly [row: number, column: number] | undefined => {
    const [row, column, toRow, toColumn] = hot.getSelectedLast() ?? [];
    return row === undefined || column === undefined || row !== toRow || column !== toColumn
      ? undefined
      : [row, column];
  };
  hot.addHook('beforeKeyDown', (event: KeyboardEvent) => {
    const at = selected();
    const editor = hot.getActiveEditor();
    typing = editor?.isOpened() === true;
    if (event.defaultPrevented || event.key !== 'Tab' || event.shiftKey) return;
    if (at === undefined || editor?.isOpened() !== true) return;
    if (at[1] < hot.countCols() - 1) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    editor.finishEditing();
    beyond(at[0], at[1]);
  });
  hot.updateSettings({
    tabMoves: (event: KeyboardEvent) => {
      const at = selected();
      if (at !== undefined && !event.shiftKey) {
        const goesOn = run !== undefined && run.row === at[0] && run.end === at[1];
        const step = typing && !computed(at[1]) ? toInput(at[1]) : 1;
        run = { row: at[0], first: goesOn && run !== undefined ? run.first : at[1], end: at[1] + step };
        return { row: 0, col: step };
      }
      return { row: 0, col: 1 };
    },
    enterMoves: (event: KeyboardEvent) => {
      const at = selected();
      const back =
        run !== undefined && at !== undefined && !event.shiftKey && run.row === at[0] && run.end === at[1]
          ? run.first - at[1]
          : 0;
      run = undefined;
      return { row: 1, col: back };
    },
  });
}
