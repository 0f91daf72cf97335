import type { Desk } from '../desk.ts';

/** Something a user can do, once: buttons, menus, keys and help are made of it. */
export interface Action<Id extends string = string> {
  readonly id: Id;
  readonly group: 'Book' | 'Edit' | 'View' | 'Go' | 'Help';
  readonly name: string | ((desk: Desk) => string);
  /** As keyboards call it: "Ctrl+Shift+Z". On a Mac the command key does for Ctrl. */
  readonly key?: string;
  readonly doc: string;
  /** Offered in the menu on cells. */
  readonly onCells?: true;
  /** Offered in the menu on column headers. */
  readonly onHeaders?: true;
  readonly possible?: (desk: Desk) => boolean;
  /** Whether a choice that the action stands for is the present one. */
  readonly chosen?: (desk: Desk) => boolean;
  readonly run: (desk: Desk) => void;
}

/** A list of actions whose ids the compiler knows. */
export const actionList = <const Id extends string>(list: readonly Action<Id>[]): readonly Action<Id>[] => list;

export const actionName = (action: Action, desk: Desk): string =>
  typeof action.name === 'string' ? action.name : action.name(desk);

export const isPossible = (action: Action, desk: Desk): boolean => action.possible?.(desk) ?? true;

/** Does an action if it is possible. What goes wrong is reported, and the page stays usable. */
export function act(action: Action, desk: Desk): void {
  if (!isPossible(action, desk)) return;
  try {
    action.run(desk);
  } catch (error) {
    desk.say(`${actionName(action, desk)}: ${error instanceof Error ? error.message : String(error)}`, 'problem');
  }
}
