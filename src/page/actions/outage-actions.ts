import { actionList } from './action.ts';
import { selectedBelts } from '../shown-belt.ts';
import { notLoaded } from '../not-loaded.ts';

export const outageActions = actionList([
  {
    id: 'outage-plan',
    group: 'Book',
    key: 'Alt+Shift+U',
    name: 'Outage plan …',
    doc:
      'schedules the downtime of each belt and the crew that works on it, for minimum lost production or the ' +
      'earliest finish; as table, picture and calendar',
    run(desk) {
      const selected = selectedBelts(desk);
      import('../outage/outage-dialog.ts').then(
        ({ showOutage }) => showOutage(desk, selected),
        (error: unknown) => desk.say(notLoaded('The outage plan', error), 'problem'),
      );
    },
  },
]);
