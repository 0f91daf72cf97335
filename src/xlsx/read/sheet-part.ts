import { positionName, type CellPosition, cellPosition, cellRange, positionWithin, rowNumber } from './cell-address.ts';
import { type CellContext, type FilledCell, filledCell } from './cell-value.ts';
import { filledRows, type SheetTally } from './filled-rows.ts';
import { typedFormula } from './formula-text.ts';
import type { RawRange, RawSheet } from './raw-book.ts';
import { grouped } from './read-limits.ts';
import { sharedFormulas } from './shared-formulas.ts';
import { saveAgain, UnreadableFile } from './unreadable-file.ts';
import { type Attributes, readPart } from './xml-part.ts';
import { longText, textPieces, unescaped } from './xml-text.ts';
import type { BookParts } from './zip-parts.ts';

type SheetContent = Pick<RawSheet, 'rows' | 'merges' | 'lastRow' | 'lastColumn'>;

/**
 * Reads a worksheet's cells and merged areas.
 *
 * Only what the file names cell by cell is kept: column widths, merged areas and validations that span the whole sheet
 * cost nothing. Cells and rows without an address follow the one before; a cell's own address counts more than its
 * row's.
 *
 * Source: ECMA-376 Part 1, 18.3.1.99 (worksheet), 18.3.1.73 (row), 18.3.1.4 (c), 18.3.1.55 (mergeCell).
 */
export function sheetPart(
  parts: BookParts,
  path: string,
  sheet: string,
  context: CellContext,
  tally: SheetTally,
): SheetContent {
  const { limits } = parts;
  const filled = filledRows(sheet, limits, tally);
  const merges: RawRange[] = [];
  const awaiting: { readonly cell: FilledCell; readonly id: string }[] = [];

  let section = '';
  let row = 0;
  let column = 0;
  let inRow = false;
  let rowNamed = false;
  let position: CellPosition | undefined;
  let cell: Attributes = {};
  let part: 'value' | 'formula' | 'inline' | undefined;
  let value: string | undefined;
  let inline: string | undefined;
  let formula: string | undefined;
  let formulaKind: Attributes = {};

  const place = (): string => {
    if (position) return `sheet "${sheet}", cell ${positionName(position)}`;
    return row > 0 ? `sheet "${sheet}", row ${grouped(row)}` : `sheet "${sheet}"`;
  };
  const shared = sharedFormulas(limits, tally, place);
  const pieces = textPieces(limits, place);

  const startRow = (attributes: Attributes): void => {
    inRow = true;
    rowNamed = attributes['r'] !== undefined;
    row =
      attributes['r'] === undefined
        ? positionWithin({ row: row + 1, column: 1 }, place, limits).row
        : rowNumber(attributes['r'], place, limits);
    column = 0;
  };

  const startCell = (attributes: Attributes): void => {
    const { r } = attributes;
    position =
      r === undefined ? positionWithin({ row, column: column + 1 }, place, limits) : cellPosition(r, place, limits);
    column = position.column;
    if (!rowNamed) row = position.row;
    cell = attributes;
    value = inline = formula = undefined;
    formulaKind = {};
  };

  /** The formula as typed; a shared one that no cell has defined yet answers the id to wait for. */
  const formulaOf = (at: CellPosition): { readonly text?: string; readonly awaits?: string } => {
    if (formula === undefined) return {};
    const trimmed = unescaped(formula).trim();
    const bare = trimmed.startsWith('=') ? trimmed.slice(1) : trimmed;
    const id = formulaKind['t'] === 'shared' ? formulaKind['si'] : undefined;
    if (id !== undefined) {
      if (bare !== '') {
        if (formulaKind['ref'] !== undefined || !shared.has(id)) shared.define(id, at, bare);
      } else {
        const text = shared.formula(id, at);
        return text === undefined ? { awaits: id } : { text };
      }
    }
    return bare === '' ? {} : { text: typedFormula(bare) };
  };

  const endCell = (at: CellPosition): void => {
    const { text, awaits } = formulaOf(at);
    const own = filledCell(
      {
        position: at,
        type: cell['t'],
        style: cell['s'],
        value,
        inline,
        formula: text ?? (awaits === undefined ? undefined : ''),
      },
      context,
      place,
    );
    if (own) {
      if (awaits !== undefined) awaiting.push({ cell: own, id: awaits });
      filled.add(own);
    }
    position = undefined;
  };

  const addMerge = (reference: string | undefined): void => {
    const area = `merged area of sheet "${sheet}"`;
    const range = cellRange(reference ?? '', () => area, limits);
    if (range.top === range.bottom && range.left === range.right) return;
    if (++tally.merges > limits.merges) {
      throw new UnreadableFile(
        'too much content',
        `The file has more than ${grouped(limits.merges)} merged areas, the most that is read; ` +
          `sheet "${sheet}" goes past that. Unmerge the cells of the list, and save it again as .xlsx.`,
      );
    }
    merges.push(range);
  };

  const open = (name: string, attributes: Attributes, depth: number): void => {
    if (position) {
      if (part === 'inline') pieces.open(name);
      else if (depth !== 5) return;
      else if (name === 'v') {
        part = 'value';
        value = '';
      } else if (name === 'f') {
        part = 'formula';
        formula = '';
        formulaKind = attributes;
      } else if (name === 'is') part = 'inline';
    } else if (depth === 4) {
      if (inRow && name === 'c') startCell(attributes);
    } else if (depth === 3) {
      if (section === 'sheetData' && name === 'row') startRow(attributes);
      else if (section === 'mergeCells' && name === 'mergeCell') addMerge(attributes['ref']);
    } else if (depth === 2) section = name;
    else if (depth === 1 && name !== 'worksheet') {
      throw new UnreadableFile(
        'part missing',
        `Sheet "${sheet}" is to be in part ${path}, which holds no worksheet but "${name.slice(0, 40)}". ${saveAgain}`,
      );
    }
  };

  const close = (name: string, depth: number): void => {
    if (position) {
      if (depth === 4) endCell(position);
      else if (depth === 5) {
        if (part === 'inline') inline = pieces.taken();
        part = undefined;
      } else if (part === 'inline') pieces.close(name);
    } else if (depth === 3) inRow = false;
  };

  const text = (piece: string): void => {
    if (part === 'value') {
      value += piece;
      if ((value?.length ?? 0) > limits.textCharacters) throw longText(limits, place());
    } else if (part === 'formula') {
      formula += piece;
      if ((formula?.length ?? 0) > limits.formulaCharacters) {
        throw new UnreadableFile(
          'text too long',
          `The formula at ${place()} is longer than ${grouped(limits.formulaCharacters)} characters; ` +
            `spreadsheet programs hold 8,192. ${saveAgain}`,
        );
      }
    } else if (part === 'inline') pieces.text(piece);
  };

  readPart(parts, path, { open, close, text, place });
  for (const waiting of awaiting) {
    const late = shared.formula(waiting.id, waiting.cell);
    if (late === undefined) delete waiting.cell.formula;
    else waiting.cell.formula = late;
  }
  return { ...filled.taken(), merges };
}
