/** Rows as columns of equal width: the first begins at the left, the others end at the right. */
export function aligned(rows: readonly (readonly string[])[]): string[] {
  const widths = rows[0]?.map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0))) ?? [];
  return rows.map((row) =>
    row
      .map((text, column) => (column === 0 ? text.padEnd(widths[column] ?? 0) : text.padStart(widths[column] ?? 0)))
      .join('  ')
      .trimEnd(),
  );
}
