import { cellText } from '../read/raw-cells.ts';
import type { ColumnReader } from './cell-reading.ts';
import type { ValueChoice } from './import-model.ts';

const plain = (text: string): string => text.trim().toLowerCase().replaceAll(/\s+/g, ' ');

/** A reader that takes some texts for what the user says that they stand for. */
export function withValueChoices(reader: ColumnReader, values: readonly ValueChoice[] = []): ColumnReader {
  if (values.length === 0) return reader;
  const meant = new Map(values.map(({ from, to }) => [plain(from), to]));
  return {
    unchanged: reader.unchanged,
    read(cell, hoursPerYear) {
      const to = cell.value === null ? undefined : meant.get(plain(cellText(cell)));
      if (to === undefined) return reader.read(cell, hoursPerYear);
      const { row, column } = cell;
      const reading = reader.read({ row, column, value: to }, hoursPerYear);
      return reading.issue === undefined
        ? { content: reading.content, remark: `read as ${to}, as you chose` }
        : reading;
    },
  };
}
