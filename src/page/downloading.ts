import { plainName } from '../sheet/file-names.ts';

/** Files that the page hands to the user. */

/** The name of a file that is made of a book. */
export const fileName = (title: string, ending: string): string => `${plainName(title) || 'Skewbook'}${ending}`;

/** What a file says that it was made of. */
export const madeOf = (title: string): string => (title === '' ? 'an untitled book' : title);

export const bookType = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/** How long the browser may take to fetch what it was offered, in milliseconds. */
const kept = 60_000;

export function download(content: Blob | Uint8Array | string, type: string, name: string): void {
  const link = document.createElement('a');
  const file =
    content instanceof Blob ? content : new Blob([typeof content === 'string' ? content : content.slice()], { type });
  const url = URL.createObjectURL(file);
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), kept);
}
