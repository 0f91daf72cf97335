import areasText from '../../sheets/demo/areas.csv?raw';
import beltsText from '../../sheets/demo/belts.csv?raw';
import crewsText from '../../sheets/demo/crews.csv?raw';
import offersText from '../../sheets/demo/offers.csv?raw';
import outageJobsText from '../../sheets/demo/outage-jobs.csv?raw';
import plateSeriesText from '../../sheets/demo/plate-series.csv?raw';
import pulleysText from '../../sheets/demo/pulleys.csv?raw';
import shelfText from '../../sheets/demo/shelf.csv?raw';
import sitesText from '../../sheets/demo/sites.csv?raw';
import stripsText from '../../sheets/demo/strips.csv?raw';
import suppliersText from '../../sheets/demo/suppliers.csv?raw';
import windowsText from '../../sheets/demo/windows.csv?raw';
import { areas } from '../../sheets/work/areas.ts';
import { belts } from '../../sheets/belts/index.ts';
import { crews } from '../../sheets/work/crews.ts';
import { offers } from '../../sheets/buying/offers.ts';
import { outageJobs } from '../../sheets/work/outage-jobs.ts';
import { plateSeries } from '../../sheets/series/plate-series.ts';
import { pulleys } from '../../sheets/series/pulleys.ts';
import { shelf } from '../../sheets/buying/shelf.ts';
import { sites } from '../../sheets/buying/sites.ts';
import { strips } from '../../sheets/series/strips.ts';
import { suppliers } from '../../sheets/buying/suppliers.ts';
import { windows } from '../../sheets/work/windows.ts';
import type { Content } from '../formula/values.ts';
import { type Column, isComputed, type SheetDeclaration } from '../sheet/declaration.ts';
import { headerWithUnit } from '../sheet/header.ts';
import { readDate } from '../units/dates.ts';
import { isRefusal } from '../units/numbers.ts';
import { isWords, type UnitSystem } from '../units/quantities.ts';
import { commaRows } from './csv.ts';
import { convertedBook } from './conversion.ts';
import { emptyBook } from './declared.ts';
import type { BookRow, BookState } from './state.ts';

/**
 * Tern Quay: an invented river terminal with 36 belts, invented plate series and strips, so that a new user sees a book
 * at work. The figures are in sheets/demo, in metric units; the US customary book is the same fleet, converted.
 */

function contentOf(text: string, column: Column): Content {
  if (text === '') return null;
  if (isWords(column.kind)) return text;
  if (column.kind === 'date') {
    const day = readDate(text);
    if (isRefusal(day)) throw new Error(`${column.header}: ${day.reason}, "${text}"`);
    return day.serial;
  }
  const number = Number(text);
  if (!Number.isFinite(number)) throw new Error(`${column.header}: "${text}" is no number`);
  return number;
}

/**
 * The records of a table whose headers are inputs of a sheet, in any order, with their metric units in brackets; other
 * inputs stay empty.
 */
function records(text: string, { name, columns }: SheetDeclaration): BookRow[] {
  const [headers = [], ...rows] = commaRows(text);
  const places = columns.map((column) => {
    const header = headerWithUnit(column.header, column.kind, 'metric');
    const place = headers.indexOf(header);
    if (place >= 0 && isComputed(column)) throw new Error(`demo, ${name}: the column ${header} is computed`);
    return { column, place };
  });
  const known = new Set(places.map(({ place }) => place));
  const unknown = headers.find((_, place) => !known.has(place));
  if (unknown !== undefined) throw new Error(`demo, ${name}: the sheet has no column ${unknown}`);
  return rows.map((row, index) => {
    if (row.length !== headers.length)
      throw new Error(`demo, ${name}: row ${index + 1} has ${row.length} cells, the header ${headers.length}`);
    return { cells: places.map(({ column, place }) => (place < 0 ? null : contentOf(row[place] ?? '', column))) };
  });
}

export function demoBook(units: UnitSystem): BookState {
  const rows = new Map<string, BookRow[]>([
    [belts.name, records(beltsText, belts)],
    [pulleys.name, records(pulleysText, pulleys)],
    [plateSeries.name, records(plateSeriesText, plateSeries)],
    [strips.name, records(stripsText, strips)],
    [suppliers.name, records(suppliersText, suppliers)],
    [offers.name, records(offersText, offers)],
    [shelf.name, records(shelfText, shelf)],
    [sites.name, records(sitesText, sites)],
    [crews.name, records(crewsText, crews)],
    [windows.name, records(windowsText, windows)],
    [areas.name, records(areasText, areas)],
    [outageJobs.name, records(outageJobsText, outageJobs)],
  ]);
  const book = emptyBook('metric');
  const metric: BookState = {
    ...book,
    title: 'Tern Quay',
    invented: true,
    sheets: book.sheets.map((sheet) => ({ ...sheet, rows: rows.get(sheet.name) ?? sheet.rows })),
  };
  return convertedBook(metric, units).state;
}
