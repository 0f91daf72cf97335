import type { Desk, Theme, View } from './desk.ts';

/** How a user likes the page: kept in the browser apart from the book. */
interface Preferences {
  readonly theme: Theme;
  /** 'none' when the panel is put away. */
  readonly view: View | 'none';
  readonly findings: boolean;
  readonly welcome: boolean;
  readonly sideWidth: number | undefined;
  readonly findingsHeight: number | undefined;
}

const name = 'skewbook-preferences';
const themes: readonly string[] = ['auto', 'light', 'dark'] satisfies Theme[];

const views: readonly string[] = [
  'joint',
  'working',
  'skew',
  'pull',
  'what-if',
  'none',
] satisfies Preferences['view'][];

const isView = (value: unknown): value is Preferences['view'] => typeof value === 'string' && views.includes(value);
const isTheme = (value: unknown): value is Theme => typeof value === 'string' && themes.includes(value);

/** A browser that keeps nothing for the page only makes it forget how it was liked. */
export function recallPreferences(desk: Desk): void {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(name) ?? '{}');
    if (typeof kept !== 'object' || kept === null) return;
    const { theme, view, findings, welcome, sideWidth, findingsHeight } = kept as Partial<
      Record<keyof Preferences, unknown>
    >;
    if (isTheme(theme)) desk.theme = theme;
    if (isView(view)) desk.view = view === 'none' ? undefined : view;
    if (typeof findings === 'boolean') desk.findingsShown = findings;
    if (typeof welcome === 'boolean') desk.welcome = welcome;
    if (typeof sideWidth === 'number') desk.sideWidth = sideWidth;
    if (typeof findingsHeight === 'number') desk.findingsHeight = findingsHeight;
  } catch {
    return;
  }
}

export function keepPreferences(desk: Desk): void {
  let last = '';
  desk.listen(() => {
    const now = JSON.stringify({
      theme: desk.theme,
      view: desk.view ?? 'none',
      findings: desk.findingsShown,
      welcome: desk.welcome,
      sideWidth: desk.sideWidth,
      findingsHeight: desk.findingsHeight,
    } satisfies Preferences);
    if (now === last) return;
    last = now;
    try {
      localStorage.setItem(name, now);
    } catch {
      return;
    }
  });
}
