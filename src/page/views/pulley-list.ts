import { inColumn } from '../cell-text.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import { placedPulleys } from '../../advice/belt-path.ts';
import { Belt } from '../../records/belt.ts';
import { hasPulleySheet, listedPulleys, type ListedPulley } from '../../records/belt-pulleys.ts';
import { type Content, isFault, textIn } from '../../formula/values.ts';
import { unitOf } from '../../units/quantities.ts';
import type { BeltHeader, PulleyHeader } from '../../../sheets/index.ts';
import { belts } from '../../../sheets/belts/index.ts';
import { pulleys as pulleySheet } from '../../../sheets/series/pulleys.ts';
import type { Desk } from '../desk.ts';
import { sideWidth } from '../side-size.ts';
import { verdictLook } from '../verdict-look.ts';
import { loopView } from './loop-picture.ts';

/** The pulleys of a belt: drawn where they have places, and each with what the belt does on it and both its checks. */

function shown({ book }: Desk, pulley: ListedPulley, header: PulleyHeader): string {
  const value = pulley.value(header);
  if (typeof value === 'number') return inColumn(book, pulleySheet.name, header, value);
  return isFault(value) ? '?' : textIn(value);
}

const check = (pulley: ListedPulley, header: PulleyHeader): TemplateResult => {
  const look = verdictLook(pulley.text(header));
  return html`<small class=${look?.className ?? ''}>${
    look === undefined ? '? not known' : `${look.mark} ` + `${pulley.text(header)}`
  }</small>`;
};

function go(desk: Desk, pulley: ListedPulley, header: PulleyHeader): void {
  desk.goTo(pulley.place(header));
  desk.grid?.focus();
}

function row(desk: Desk, pulley: ListedPulley): TemplateResult {
  const facts = [
    pulley.text('Pulley type'),
    ...(pulley.text('Reverse bend') === 'yes' ? ['reverse bend'] : []),
    ...(pulley.text('Group used') === '' ? [] : [`group ${pulley.text('Group used')}`]),
  ].filter((fact) => fact !== '' && fact !== pulley.name);
  const degrees = shown(desk, pulley, 'Wrap angle used');
  return html`<tr>
    <th scope="row"><button class="link" title="Go to its row in the sheet ${pulleySheet.name}"
      @click=${() => go(desk, pulley, 'Pulley')}>${pulley.name}</button><small>${facts.join(', ')}</small></th>
    <td class="skew-number">${shown(desk, pulley, 'Diameter')}</td>
    <td class="skew-number">${degrees === '' ? '' : `${degrees}°`}</td>
    <td class="skew-number">${shown(desk, pulley, 'Tension')}<small>${pulley.text('Tension from')}</small></td>
    <td class="skew-number">${shown(desk, pulley, 'Joint minimum pulley')}${check(pulley, 'Joint check')}</td>
    <td class="skew-number">${shown(desk, pulley, 'Carcass minimum pulley')}${check(pulley, 'Carcass check')}</td>
  </tr>`;
}

/** Rows for the head and the tail of a belt, with what its own row knows of them. */
function addPulleys(desk: Desk, record: number): void {
  const { book } = desk;
  const at = book.sheet(pulleySheet.name).rows.length;
  const width = book.columns(pulleySheet.name).length;
  const belt = book.content({ sheet: belts.name, record, column: book.column(belts.name, belts.key) });
  const diameter = (header: BeltHeader): Content => {
    const value = book.read(belts.name, record, header);
    return typeof value === 'number' ? value : null;
  };
  const rowOf = (kind: 'head' | 'tail', size: Content): Content[] => {
    const own: Content[] = Array.from({ length: width }, () => null);
    const cells: readonly (readonly [PulleyHeader, Content])[] = [
      ['Belt', belt],
      ['Pulley', kind],
      ['Pulley type', kind],
      ['Diameter', size],
    ];
    for (const [header, content] of cells) own[book.column(pulleySheet.name, header)] = content;
    return own;
  };
  book.addRecords(
    pulleySheet.name,
    at,
    [rowOf('head', diameter('Head pulley')), rowOf('tail', diameter('Tail pulley'))],
    'list pulleys',
  );
  desk.goTo({ sheet: pulleySheet.name, record: at, column: book.column(pulleySheet.name, 'Pulley') });
}

function picture(desk: Desk, pulleys: readonly ListedPulley[]): TemplateResult {
  const placed = placedPulleys(desk.book, pulleys);
  if (placed === undefined)
    return html`<p class="caption">Enter x, y and diameter of every pulley in the sheet ${pulleySheet.name}: the loop
      is then drawn here, and wrap angles and belt length follow.</p>`;
  const unit = unitOf('length', desk.book.units);
  const at = (index: number): ListedPulley | undefined => pulleys[index];
  return loopView(
    placed,
    sideWidth(desk) - 24,
    (index) => {
      const pulley = at(index);
      return pulley === undefined ? '' : `${shown(desk, pulley, 'Diameter')} ${unit}`;
    },
    (index) => {
      const pulley = at(index);
      if (pulley !== undefined) go(desk, pulley, 'Diameter');
    },
  );
}

export function pulleyList(desk: Desk, record: number): TemplateResult | typeof nothing {
  if (!hasPulleySheet(desk.book)) return nothing;
  const belt = new Belt(desk.book, record);
  const pulleys = listedPulleys(belt);
  const [length, line] = [unitOf('length', desk.book.units), unitOf('lineTension', desk.book.units)];
  if (pulleys.length === 0) {
    const named = belt.name !== '';
    return html`<h4 class="working-head">Pulleys</h4>
      <p class="caption">This belt’s pulleys are not listed, so its smallest, head and tail pulley are used for all of
        them.</p>
      <p class="pull-free"><button class="button" ?disabled=${!named} title=${
        named
          ? `Adds its head and tail pulley to the sheet ${pulleySheet.name}; add the others there, in order of travel`
          : 'Enter a name for the belt first'
      } @click=${() => addPulleys(desk, record)}>List its pulleys</button></p>`;
  }
  return html`
    <h4 class="working-head">Pulleys</h4>
    ${picture(desk, pulleys)}
    <div class="skew-scroll"><table class="skew-table">
      <caption class="unseen">The belt’s pulleys in order of travel</caption>
      <thead><tr><th scope="col">Pulley</th><th scope="col">Diameter<small>${length}</small></th><th
        scope="col">Wrap angle</th><th scope="col">Tension<small>${line}</small></th><th
          scope="col">Joint minimum<small>${length}</small></th><th
            scope="col">Carcass minimum<small>${length}</small></th></tr></thead>
      <tbody>${pulleys.map((pulley) => row(desk, pulley))}</tbody>
    </table></div>`;
}
