import type { Desk } from './desk.ts';

/** A file that is dropped anywhere on the page: the browser would leave the page for it. */

const brings = ({ dataTransfer }: DragEvent): boolean => dataTransfer?.types.includes('Files') === true;

/** Fields that ask for files take what is dropped on them by themselves. */
const isFileField = ({ target }: DragEvent): boolean => target instanceof HTMLInputElement && target.type === 'file';

/** Opens the import on what is dropped beside its dialog; while another dialog is open nothing is taken. */
export function takeDropped(desk: Desk): void {
  window.addEventListener('dragover', (event) => {
    if (brings(event) && !isFileField(event)) event.preventDefault();
  });
  window.addEventListener('drop', (event) => {
    if (!brings(event) || isFileField(event) || event.defaultPrevented) return;
    event.preventDefault();
    const file = event.dataTransfer?.files[0];
    if (file !== undefined && document.querySelector('dialog[open]') === null) desk.open({ kind: 'import', file });
  });
}
