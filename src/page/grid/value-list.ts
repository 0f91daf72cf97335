/**
 * Lets a click into the list of values in a column's menu do what it says, and nothing besides.
 *
 * The list is a small grid. On pressing the mouse over a row that is half in view it would scroll, draw its rows anew
 * and so lose the box that was pressed: the menu would take the press for one outside and close, with nothing chosen.
 * The browser's own handling of a box and its label needs none of that.
 */
export function keepValueListStill(): void {
  const keep = (event: Event): void => {
    if (event.target instanceof Element && event.target.closest('.htUIMultipleSelectHot td') !== null)
      event.stopPropagation();
  };
  for (const press of ['mousedown', 'touchstart']) document.addEventListener(press, keep, { capture: true });
}
