import { fixedText } from '../units/shown-mark.ts';
import type { CellRemark } from '../records/sheet-rows.ts';
import { isoDate } from '../units/dates.ts';
import type { Item } from '../order/search/order-list.ts';
import type { FleetOrder, SuppliedOrder } from '../order/fleet-order.ts';
import { chosenSupply } from '../order/fleet-order.ts';
import { itemText } from '../order/items.ts';
import { programName } from '../workbook/legal-notice.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { version } from '../../package.json';

/** What an auditor asks of an order: what it was made of, by which program, and what was left out of it and why. */

/** A file or book that an order was made of, with the SHA-256 of its bytes, in hexadecimal digits. */
export interface HashedInput {
  readonly name: string;
  readonly sha256: string;
}

export interface AuditTerms {
  readonly inputs: readonly HashedInput[];
  /** Scope and options in words, as they were chosen: "Due until", "2027-12-31". */
  readonly options: readonly (readonly [string, string])[];
  /** Searches that had not ended when the file was written, in words. */
  readonly unfinished: readonly string[];
}

/** A row of the audit: what it is about, and what is said of it. */
export type AuditRow = readonly [string, string];

const searchRows = (supplied: SuppliedOrder, unfinished: readonly string[]): AuditRow[] => {
  const { proven, bound } = chosenSupply(supplied);
  return [
    [
      'Choice of suppliers',
      proven ? 'cheapest, proven' : `best found, not proven: no choice costs less than ${fixedText(bound, 2)}`,
    ],
    ...unfinished.map((what): AuditRow => ['Not finished', `${what} had not ended when this file was written`]),
  ];
};

/** Scope, options, program, inputs and searches. */
export const auditScope = (
  { joints }: FleetOrder,
  supplied: SuppliedOrder,
  day: number,
  { inputs, options, unfinished }: AuditTerms,
): AuditRow[] => [
  ...inputs.map(({ name, sha256 }): AuditRow => ['Made from', `${name}, SHA-256 ${sha256}`]),
  ['Program', `${programName} ${version}`],
  ['Counted to', isoDate(day)],
  ...options,
  ['Belts', `${joints.belts.length} ordered for, ${joints.leftOut.length} left out`],
  ...searchRows(supplied, unfinished),
];

/** What could not be used or ordered, with the cell to look at. */
export const auditRemarks = (
  { remarks, joints }: FleetOrder,
  more: readonly CellRemark[],
  unsupplied: readonly Item[],
  units: UnitSystem,
): AuditRow[] => [
  ...unsupplied.map((item): AuditRow => ['Not covered', `${itemText(item, units)}: nobody offers it`]),
  ...[...remarks, ...more].map(({ cell, message }): AuditRow => [cell, message]),
  ...joints.leftOut.map(({ belt, reason, cell }): AuditRow => [cell, `${belt} is not ordered for: ${reason}`]),
];

/** The SHA-256 of bytes, in hexadecimal digits; browsers compute it on pages that came safely, from https or here. */
export async function sha256Of(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  if (!globalThis.isSecureContext) return 'not computed: the page did not come over https';
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return [...digest].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
