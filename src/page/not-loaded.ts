/**
 * What to say when a part of the page that is fetched when it is first asked for does not come: its server is gone, or
 * has a later build, of which this page knows no part.
 */
export const notLoaded = (part: string, error: unknown): string =>
  `${part} could not be loaded. Load the page again (F5); your work is kept. If that does not help, start Skewbook ` +
  `again. (${error instanceof Error ? error.message : String(error)})`;
