import { selectedBelts, shownBelt } from '../shown-belt.ts';
import type { Desk } from '../desk.ts';
import { actionList } from './action.ts';
import { notLoaded } from '../not-loaded.ts';

/** Records whose cards are asked for: the selected rows of Belts, else the belt that the panels show. */
function chosen(desk: Desk): number[] {
  const selected = selectedBelts(desk);
  const shown = shownBelt(desk);
  return selected.length > 0 ? selected : shown === undefined ? [] : [shown];
}

export const cardActions = actionList([
  {
    id: 'job-card',
    group: 'Book',
    key: 'Alt+Shift+C',
    onCells: true,
    name: (desk) => (chosen(desk).length > 1 ? `Job cards of ${chosen(desk).length} belts …` : 'Job card …'),
    doc:
      'the sheets that the crew takes to the selected belts, or to those due, filtered or all: cautions, parts, ' +
      'drawing, holes, steps, sign-off; print them or save a file',
    possible: (desk) => chosen(desk).length > 0,
    run(desk) {
      const records = chosen(desk);
      import('../card-dialog.ts').then(
        ({ showCards }) => showCards(desk, { word: 'selected', records }),
        (error: unknown) => desk.say(notLoaded('The job card', error), 'problem'),
      );
    },
  },
]);
