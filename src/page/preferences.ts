import type { Desk, Theme } from './desk.ts';

/** How a user likes the page: kept in the browser apart from the book. */
interface Preferences {
  readonly theme: Theme;
  readonly joint: boolean;
  readonly findings: boolean;
}

const name = 'skewbook-preferences';
const themes: readonly string[] = ['auto', 'light', 'dark'] satisfies Theme[];

const isTheme = (value: unknown): value is Theme => typeof value === 'string' && themes.includes(value);

/** A browser that keeps nothing for the page only makes it forget how it was liked. */
export function recallPreferences(desk: Desk): void {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(name) ?? '{}');
    if (typeof kept !== 'object' || kept === null) return;
    const { theme, joint, findings } = kept as Partial<Record<keyof Preferences, unknown>>;
    if (isTheme(theme)) desk.theme = theme;
    if (typeof joint === 'boolean') desk.panels.joint = joint;
    if (typeof findings === 'boolean') desk.panels.findings = findings;
  } catch {
    return;
  }
}

export function keepPreferences(desk: Desk): void {
  let last = '';
  desk.listen(() => {
    const now = JSON.stringify({ theme: desk.theme, ...desk.panels } satisfies Preferences);
    if (now === last) return;
    last = now;
    try {
      localStorage.setItem(name, now);
    } catch {
      return;
    }
  });
}
