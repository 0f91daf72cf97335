import { counted } from '../units/phrases.ts';
import { replacedText, type Search } from '../workbook/found-cells.ts';
import { type CellPlace, placeKey } from '../workbook/place.ts';
import { contentText } from './cell-text.ts';
import type { Desk, SoughtText } from './desk.ts';
import { changeable, enter, type TextEdit } from './editing.ts';
import { TextSearch } from './text-search.ts';

/** Find and replace as the desk does it. */

export const noFinding: SoughtText = { text: '', replacement: '', matchCase: false, wholeBook: false, at: undefined };

const searchOf = ({ text, matchCase, wholeBook }: SoughtText, sheet: string): Search => ({
  text,
  matchCase,
  sheet: wholeBook ? undefined : sheet,
});

interface Found {
  readonly places: readonly CellPlace[];
  /** False while cells are still being looked at. */
  readonly complete: boolean;
}

/** A search of a large book is done once for what is searched and where, not at every drawing of the page. */
let last: { readonly search: TextSearch; readonly desk: Desk; readonly key: string } | undefined;

export function foundNow(desk: Desk, finding: SoughtText): Found {
  const search = searchOf(finding, desk.sheet);
  const key = JSON.stringify(search);
  if (search.text === '') {
    endSearch();
    return { places: [], complete: true };
  }
  if (last?.desk !== desk || last.key !== key) {
    endSearch();
    last = { search: new TextSearch(desk.book, search, () => desk.changed()), desk, key };
  }
  return last.search;
}

/** Nothing is looked for any more. */
export function endSearch(): void {
  last?.search.end();
  last = undefined;
}

/** Goes to the next cell found, after the last one to the first. */
export function stepFound(desk: Desk, step: 1 | -1): void {
  const { finding } = desk;
  const places = finding === undefined ? [] : foundNow(desk, finding).places;
  if (finding === undefined || places.length === 0) return;
  const from = finding.at ?? (step > 0 ? -1 : 0);
  const at = (from + step + places.length) % places.length;
  desk.finding = { ...finding, at };
  const place = places[at];
  if (place !== undefined) desk.goTo(place);
}

/** A cell's content with the text replaced; undefined where it does not stand in the content. */
function replaced(desk: Desk, finding: SoughtText, place: CellPlace): TextEdit | undefined {
  const content = desk.book.content(place);
  if (content === null || !changeable(place, desk.book.state)) return undefined;
  const text = replacedText(
    contentText(content, desk.book.kind(place)),
    searchOf(finding, desk.sheet),
    finding.replacement,
  );
  return text === undefined ? undefined : { ...place, text };
}

function replaceIn(desk: Desk, finding: SoughtText, places: readonly CellPlace[]): void {
  const edits = places.flatMap((place) => replaced(desk, finding, place) ?? []);
  const left = places.length - edits.length;
  enter(desk, edits, 'replace', () =>
    desk.say(
      `${counted(edits.length, 'cell')} replaced.` +
        (left === 0
          ? ''
          : ` ${counted(left, 'cell')} only show the text: the book works them out or keeps them fixed.`),
    ),
  );
}

/** Replaces in the cell that is on show, and goes on to the next one. */
export function replaceOne(desk: Desk): void {
  const { finding } = desk;
  if (finding === undefined) return;
  const { places } = foundNow(desk, finding);
  const place = places[finding.at ?? -1];
  if (place === undefined) {
    stepFound(desk, 1);
    return;
  }
  const edit = replaced(desk, finding, place);
  if (edit === undefined) desk.say('This cell only shows the text: the book works it out or keeps it fixed.');
  else enter(desk, [edit], 'replace');
  const after = foundNow(desk, finding).places;
  const still = after.some((other) => placeKey(other) === placeKey(place));
  desk.finding = { ...finding, at: still ? finding.at : (finding.at ?? 0) - 1 };
  stepFound(desk, 1);
}

/** Replaces in all cells found, as one step to undo. */
export function replaceAll(desk: Desk): void {
  if (desk.finding !== undefined) replaceIn(desk, desk.finding, foundNow(desk, desk.finding).places);
  desk.changed();
}
