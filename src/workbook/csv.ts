/**
 * The cells of comma-separated text, line by line; blank lines and lines that start with "#" are left out.
 *
 * A cell that holds a comma, a quote or a line's end stands in double quotes, a quote in it twice.
 * Source: RFC 4180; the comment lines are ours.
 */
export function commaRows(text: string): string[][] {
  const rows: string[][] = [];
  let cells: string[] = [];
  let at = 0;
  const source = text.replaceAll('\r\n', '\n');
  const cell = /"((?:[^"]|"")*)"|([^",\n]*)/y;
  while (at < source.length) {
    if (cells.length === 0 && (source[at] === '#' || source[at] === '\n')) {
      const end = source.indexOf('\n', at);
      at = end < 0 ? source.length : end + 1;
      continue;
    }
    cell.lastIndex = at;
    const [whole = '', quoted, bare = ''] = cell.exec(source) ?? [];
    cells.push(quoted === undefined ? bare : quoted.replaceAll('""', '"'));
    at += whole.length;
    const next = source[at];
    if (next !== ',' && next !== '\n' && next !== undefined)
      throw new Error(`row ${rows.length + 1}: a quote appears where the cell should end`);
    at += 1;
    if (next === ',') {
      if (at === source.length) cells.push('');
      continue;
    }
    rows.push(cells);
    cells = [];
  }
  if (cells.length > 0) rows.push(cells);
  return rows;
}
