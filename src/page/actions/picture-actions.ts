import { actionList } from './action.ts';
import { notLoaded } from '../not-loaded.ts';

export const pictureActions = actionList([
  {
    id: 'pictures',
    group: 'Book',
    key: 'Alt+Shift+X',
    name: 'Pictures …',
    doc:
      'draws the fleet by area, month and use of the ratings, columns against each other, spreads, and figures and ' +
      'verdicts over inputs; parts of a picture choose its belts',
    run(desk) {
      Promise.all([import('../pictures/pictures-dialog.ts'), import('../../pictures/drawing/drawn-picture.ts')]).then(
        ([{ showPictures }, { drawnPicture, pictureFile }]) =>
          showPictures(desk, { draw: drawnPicture, file: pictureFile }),
        (error: unknown) => desk.say(notLoaded('The pictures', error), 'problem'),
      );
    },
  },
]);
