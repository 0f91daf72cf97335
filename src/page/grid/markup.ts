/**
 * What the grid may write into the page as markup: nothing.
 *
 * Texts of headers and menus are escaped. What is pasted is taken from the clipboard's plain text, which every
 * spreadsheet program puts beside its markup, so that no page's markup comes in with it.
 */
export function withoutMarkup(content: string, source: string): string {
  if (source.startsWith('CopyPaste')) return '';
  return content.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}
