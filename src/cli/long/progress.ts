import { isatty } from 'node:tty';
import { visibleLine } from '../visible-text.ts';

/** How far a long run is, in one line of a terminal that is written over; nowhere else. */

const errors = 2;

let [shown, at] = ['', 0];

/** Milliseconds between two lines: a terminal is slower than a part of a list. */
const every = 200;

/** Shows a line in place of the one before; '' takes it away. */
export function progress(text: string): void {
  if (!isatty(errors) || (text !== '' && performance.now() - at < every) || text === shown) return;
  at = performance.now();
  const line = visibleLine(text).slice(0, 79);
  // Bytes: the sign that goes back to the line's beginning is one that a text would have shown, not obeyed.
  process.stderr.write(Buffer.from(`\r${line.padEnd(shown.length)}${text === '' ? '\r' : ''}`));
  shown = line;
}
