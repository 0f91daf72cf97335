import { UnreadableFile } from './unreadable-file.ts';
import { readPart } from './xml-part.ts';
import type { BookParts } from './zip-parts.ts';

interface Frozen {
  readonly rows: number;
  readonly columns: number;
}

/** How the settings say that a split is frozen. Source: from memory of the files that programs write. */
const frozenMode = '2';

function frozenOf(items: ReadonlyMap<string, string>): Frozen {
  const places = (way: string): number =>
    items.get(`${way}SplitMode`) === frozenMode ? Number(items.get(`${way}SplitPosition`) ?? 0) : 0;
  return { rows: places('Vertical'), columns: places('Horizontal') };
}

/**
 * Rows and columns that stay in view, by the names of the sheets. Source: OASIS OpenDocument 1.2, part 1, 3.10
 * (settings); the names of the items are from memory.
 */
export function frozenParts(parts: BookParts): ReadonlyMap<string, Frozen> {
  const found = new Map<string, Frozen>();
  const path = parts.find('settings.xml');
  if (path === undefined) return found;
  let sheet = '';
  let item = '';
  let items = new Map<string, string>();
  try {
    readPart(
      parts,
      path,
      {
        open(name, attributes) {
          item = name === 'config:config-item' ? (attributes['config:name'] ?? '') : '';
          if (name !== 'config:config-item-map-entry') return;
          sheet = attributes['config:name'] ?? '';
          items = new Map();
        },
        text(text) {
          if (item.includes('Split')) items.set(item, `${items.get(item) ?? ''}${text.trim()}`);
        },
        close(name) {
          item = '';
          if (name === 'config:config-item-map-entry' && items.size > 0) found.set(sheet, frozenOf(items));
        },
      },
      'whole names',
    );
  } catch (error) {
    // A list is not refused for how it was scrolled.
    if (!(error instanceof UnreadableFile)) throw error;
  }
  return found;
}
