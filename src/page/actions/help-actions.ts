import { printPanel } from '../printing.ts';
import { type TourName, tours } from '../tour-steps.ts';
import { startTour } from '../tour.ts';
import { type Action, actionList } from './action.ts';

const tour = <Name extends TourName>(name: Name): Action<`tour-${Name}`> => ({
  id: `tour-${name}`,
  group: 'Help',
  name: tours[name].name,
  doc: tours[name].doc,
  run(desk) {
    desk.close();
    startTour(desk, name);
  },
});

export const helpActions = actionList([
  {
    id: 'help',
    group: 'Help',
    key: 'F1',
    name: 'Help',
    doc: 'the reference of functions, columns, checks and commands; keys, safety and licences',
    run: (desk) => desk.open({ kind: 'help' }),
  },
  tour('planner'),
  tour('engineer'),
  tour('buyer'),
  {
    id: 'print',
    group: 'Book',
    key: 'Ctrl+P',
    name: 'Print this sheet …',
    doc: 'prints the sheet as shown, in groups of columns that fit the page',
    run: () => window.print(),
  },
  {
    id: 'print-panel',
    group: 'Book',
    name: 'Print the panel …',
    doc: 'prints the panel beside the grid on a page of its own',
    possible: ({ view }) => view !== undefined,
    run: printPanel,
  },
]);
