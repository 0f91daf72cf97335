import { act, isPossible } from './actions/action.ts';
import { actions } from './actions/index.ts';
import type { Desk } from './desk.ts';

/** Keys: each action's own, wherever the focus is; the grid keeps its keys of moving and editing. */

/** A letter by what it types; where Alt makes it another character, by where it stands on the keyboard. */
function named({ key, code }: KeyboardEvent): string {
  if (key.length > 1 || key === ';') return key;
  return /^[a-z]$/i.test(key) ? key.toUpperCase() : code.replace(/^(?:Key|Digit)/, '');
}

/** For tests: keys are named. */
export function pressed(event: KeyboardEvent): string {
  const parts = [
    event.ctrlKey || event.metaKey ? 'Ctrl' : '',
    event.altKey ? 'Alt' : '',
    event.shiftKey ? 'Shift' : '',
    named(event),
  ];
  return parts.filter((part) => part !== '').join('+');
}

/** Other keys for the same action, where users of spreadsheets expect them. */
const alsoPressed: Readonly<Record<string, string>> = {
  'Ctrl+Shift+Z': 'Ctrl+Y',
  // Where the semicolon stands above a comma.
  'Ctrl+Shift+;': 'Ctrl+;',
};

/** Keys that text fields need for themselves while one has the focus. */
const ofTextFields = new Set(['Ctrl+Z', 'Ctrl+Y', 'Ctrl+D', 'Ctrl+R']);

function inTextField(desk: Desk): boolean {
  const { activeElement } = document;
  const typing = activeElement instanceof HTMLInputElement || activeElement instanceof HTMLTextAreaElement;
  return (
    desk.grid?.editing === true ||
    (typing && activeElement.closest('.grid-sheet') === null && activeElement.dataset['hotInput'] === undefined)
  );
}

export function listenToKeys(desk: Desk): void {
  window.addEventListener(
    'keydown',
    (event) => {
      const typed = pressed(event);
      if (typed === 'Escape' && desk.dialog !== undefined) {
        event.preventDefault();
        event.stopPropagation();
        desk.close();
        return;
      }
      // A dialog has the keys to itself, also one that stands beside the page. The page's own is told by the desk:
      // after it
      // was closed it stands there until the page is drawn anew.
      if (desk.dialog !== undefined || document.querySelector('body > dialog[open]') !== null) return;
      const key = alsoPressed[typed] ?? typed;
      const wanted = actions.find((item) => item.key === key);
      if (wanted === undefined || key === 'Ctrl+P') return;
      if (ofTextFields.has(key) && inTextField(desk)) {
        // The browser's own meaning would load the page anew, with what is being typed lost.
        if (key === 'Ctrl+R') event.preventDefault();
        return;
      }
      event.preventDefault();
      event.stopPropagation();
      if (isPossible(wanted, desk)) act(wanted, desk);
    },
    { capture: true },
  );
}
