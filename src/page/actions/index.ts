import { type Action, actionList } from './action.ts';
import { bookActions } from './book-actions.ts';
import { cardActions } from './card-actions.ts';
import { editActions } from './edit-actions.ts';
import { findingsActions } from './findings-actions.ts';
import { fileActions } from './file-actions.ts';
import { helpActions } from './help-actions.ts';
import { libraryActions } from './library-actions.ts';
import { orderActions } from './order-actions.ts';
import { outageActions } from './outage-actions.ts';
import { pictureActions } from './picture-actions.ts';
import { sheetActions } from './sheet-actions.ts';
import { viewActions } from './view-actions.ts';

/** Everything the page can do, in the order of its menus. */
export const actions = actionList([
  ...fileActions,
  ...libraryActions,
  ...cardActions,
  ...orderActions,
  ...outageActions,
  ...pictureActions,
  ...bookActions,
  ...editActions,
  ...sheetActions,
  ...viewActions,
  ...findingsActions,
  ...helpActions,
]);

export type ActionName = (typeof actions)[number]['id'];

export function action(id: ActionName): Action<ActionName> {
  const found = actions.find((item) => item.id === id);
  if (found === undefined) throw new Error(`there is no action ${id}`);
  return found;
}
