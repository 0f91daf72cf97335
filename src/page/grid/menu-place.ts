/** Room that a menu leaves at the window's edges. */
const margin = 6;

/**
 * Brings a menu of the grid whole into the window. It opens below its header however little room is there, and what
 * takes the focus in it would scroll the whole page. One that is higher than the window scrolls by itself (grid.css).
 */
export function keepInWindow(container: HTMLElement | null | undefined): void {
  if (container === null || container === undefined) return;
  // Its filters are put in, and its place is chosen, after it is said to be shown.
  requestAnimationFrame(() => {
    const { top, bottom } = container.getBoundingClientRect();
    const beyond = bottom - (window.innerHeight - margin);
    if (beyond > 0) container.style.top = `${container.offsetTop - Math.min(beyond, top - margin)}px`;
  });
}
