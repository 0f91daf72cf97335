import { readFileSync } from 'node:fs';

/** A table of check values: comment lines with its sources, a line of column names, rows. */
export interface Table {
  readonly sources: readonly string[];
  readonly rows: readonly Readonly<Record<string, string>>[];
}

function cells(line: string): string[] {
  return [...line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g)].map(([, quoted, bare]) =>
    quoted === undefined ? (bare ?? '') : quoted.replaceAll('""', '"'),
  );
}

/** Reads a table of the check folder; the first comment line must name a source. */
export function table(name: string): Table {
  const lines = readFileSync(new URL(name, import.meta.url), 'utf8')
    .split('\n')
    .filter((line) => line.trim() !== '');
  const sources = lines.filter((line) => line.startsWith('#')).map((line) => line.slice(1).trim());
  const [header, ...body] = lines.filter((line) => !line.startsWith('#')).map(cells);
  if (sources[0]?.startsWith('Source:') !== true || header === undefined)
    throw new Error(`${name}: no source or no columns`);
  return {
    sources,
    rows: body.map((row, index) => {
      if (row.length !== header.length)
        throw new Error(`${name}: row ${index + 1} has ${row.length} cells, the header ${header.length}`);
      return Object.fromEntries(header.map((column, place) => [column, row[place] ?? '']));
    }),
  };
}

/**
 * How far a value may lie from a printed figure: half a unit of the print's last place, a whole one where the print
 * cuts digits off, and 1e-12 of the figure (of 1 for a zero) where the print is exact, all its digits given.
 */
export function tolerance(printed: string, print: string): number {
  const exact = 1e-12 * (Math.abs(Number(printed)) || 1);
  const [, decimals = ''] = printed.split('.');
  const place = 10 ** -decimals.length;
  switch (print) {
    case 'rounded':
      return Math.max(place / 2, exact);
    case 'cut':
      return Math.max(place, exact);
    case 'exact':
      return exact;
    default:
      throw new Error(`a print is rounded, cut or exact, not ${print}`);
  }
}
