/**
 * Which file is being read, kept so that the next start knows of it.
 *
 * Reading runs in a worker, but a browser that runs out of memory there ends the whole page, and nothing is left to say
 * why. Of this window alone: another one that starts meanwhile has lost nothing.
 */
const key = 'skewbook reading';

export function beginReading(file: string): void {
  try {
    sessionStorage.setItem(key, file);
  } catch {
    // A browser that keeps nothing has nothing to tell at the next start.
  }
}

export function endReading(): void {
  try {
    sessionStorage.removeItem(key);
  } catch {
    // As above.
  }
}

/** What to say of a file at which the page ended when it was open last; it is asked once. */
export function unfinishedReading(): string | undefined {
  try {
    const file = sessionStorage.getItem(key);
    endReading();
    return file === null
      ? undefined
      : `The page ended while ${file} was read, most likely because the browser ran out of memory. The book is as it ` +
          `was. Delete sheets and rows that the list of belts does not need, or split the file.`;
  } catch {
    return undefined;
  }
}
