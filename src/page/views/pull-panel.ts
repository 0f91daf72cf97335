import { inColumn } from '../cell-text.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import { guard } from 'lit-html/directives/guard.js';
import { type BeltFigure, type BeltPull, beltPull, type Route } from '../../advice/belt-pull.ts';
import { tensionRouteNames } from '../../../sheets/belts/inputs.ts';
import { Belt, beltColumn, unnamedBelt } from '../../records/belt.ts';
import { listed, share } from '../../sheet/words.ts';
import { unitOf } from '../../units/quantities.ts';

import { belts } from '../../../sheets/belts/index.ts';
import type { Desk } from '../desk.ts';
import { shownBelt } from '../shown-belt.ts';
import { sideWidth } from '../side-size.ts';
import { pulleyList } from './pulley-list.ts';

/** The pull on a belt: its tension by every method that its record allows, in the cases of load, and on its pulleys. */

const title: Readonly<Record<string, string>> = tensionRouteNames;

/** A figure as a way to its cell, whose working the panel beside can then show. */
function figureLink(desk: Desk, { header, place, value }: BeltFigure): TemplateResult {
  const go = (): void => {
    desk.goTo(place);
    desk.grid?.focus();
  };
  return html`<button class="link figure" title="Go to ${header}: ${beltColumn(header).doc}"
    @click=${go}>${value === undefined ? 'none' : inColumn(desk.book, belts.name, header, value)}</button>`;
}

function force(desk: Desk, route: string | null, choice: BeltPull['choice']): void {
  desk.book.edit(
    [{ ...choice, content: route }],
    route === null ? 'automatic tension method' : `select the tension method ${title[route] ?? route}`,
  );
}

/** What stands beside a route: whether it is used and why, or why it cannot be. */
function standing(route: Route, { forced, from }: BeltPull): string {
  if (route.used && forced !== undefined) return 'in use: selected in Tension method';
  if (route.used)
    return route.name === 'belt rating'
      ? 'in use: last resort, no better method has its inputs'
      : 'in use: best method with the data given';
  if (route.tension.value !== undefined)
    return forced === undefined && from === 'not known' ? 'not used: invalid input' : 'for comparison';
  if (route.lacks.length > 0) return `missing: ${listed(route.lacks, 'and', 5)}`;
  return route.wrong ?? '';
}

function routeRow(desk: Desk, pull: BeltPull, route: Route): TemplateResult {
  const { forced, choice } = pull;
  const { name, tension, used } = route;
  return html`<tr class=${used ? 'skew-chosen' : ''}>
    <th scope="row">${title[name] ?? name}<small>${standing(route, pull)}</small></th>
    <td class="skew-number">${figureLink(desk, tension)}</td>
    <td class="pull-use"><button class="small" aria-pressed=${forced === name}
      aria-label="${forced === name ? 'Selected' : 'Use this'}: ${title[name] ?? name}"
      ?disabled=${tension.value === undefined && forced !== name}
      title=${
        forced === name
          ? 'Selected by you: press again for automatic selection'
          : 'Enters it in Tension method; Undo reverses it'
      } @click=${() =>
        force(desk, forced === name ? null : name, choice)}>${forced === name ? 'Selected' : 'Use this'}</button></td>
  </tr>`;
}

/** The belt rating is no method to compare by: it says what the belt may carry. */
const isCompared = ({ name, tension }: Route): boolean => name !== 'belt rating' && tension.value !== undefined;

/** The tensions that differ, and which of them the difference is said of. */
function extremes(desk: Desk, { routes }: BeltPull): string {
  const compared = routes.filter(isCompared);
  const shown = compared.map(({ tension: { value, header } }) => inColumn(desk.book, belts.name, header, value ?? 0));
  return (
    `${listed(shown)} ${unitOf('lineTension', desk.book.units)}: the ` + (compared.length > 2 ? 'smallest' : 'smaller')
  );
}

function routesTable(desk: Desk, pull: BeltPull): TemplateResult {
  const { difference, margin, forced, choice } = pull;
  const apart = difference !== undefined && margin !== undefined && difference > margin;
  return html`
    <table class="skew-table">
      <caption class="unseen">Methods for the working tension</caption>
      <thead><tr><th scope="col">Working tension</th><th
        scope="col">Tension<small>${unitOf('lineTension', desk.book.units)}</small></th><th scope="col"><span
          class="unseen">Choice</span></th></tr></thead>
      <tbody>${pull.routes.map((route) => routeRow(desk, pull, route))}</tbody>
    </table>
    ${
      difference === undefined
        ? nothing
        : html`<p class=${apart ? 'remark' : 'caption'}>${extremes(desk, pull)} is ${share(difference)} below the ${
            pull.routes.filter(isCompared).length > 2 ? 'largest' : 'larger'
          }${
            margin === undefined ? '' : `, ${apart ? 'more' : 'no more'} than MethodMargin (${share(margin)})`
          }.${apart ? ' Check their inputs before you rely on either.' : ''}</p>`
    }
    ${
      forced === undefined
        ? nothing
        : html`<p class="pull-free"><button class="button"
      @click=${() => force(desk, null, choice)}>Automatic</button></p>`
    }
  `;
}

function casesTable(desk: Desk, { cases, points, from, routes }: BeltPull): TemplateResult {
  const width = desk.book.read(belts.name, shownBelt(desk) ?? 0, 'Width');
  const perWidth = (value: number | undefined): string =>
    value === undefined || typeof width !== 'number' || width <= 0
      ? ''
      : inColumn(desk.book, belts.name, 'Working tension', value / width);
  const [newton, line] = [unitOf('force', desk.book.units), unitOf('lineTension', desk.book.units)];
  if (cases.every(({ pull }) => pull.value === undefined)) {
    const lacks = routes.find(({ name }) => name === 'resistances')?.lacks ?? [];
    return html`<h4 class="working-head">Load cases</h4><p class="caption">They need the tension from resistances${
      lacks.length === 0 ? '' : `. Missing: ${listed(lacks, 'and', 5)}`
    }.</p>`;
  }
  const greatest = points.find(({ force: { header } }) => header === 'Maximum tension')?.force.value;
  const governs = (value: number | undefined): boolean =>
    value !== undefined && greatest !== undefined && value >= greatest * (1 - 1e-9);
  return html`
    <h4 class="working-head">Load cases${from === 'resistances' ? '' : ', from resistances'}</h4>
    <table class="skew-table">
      <caption class="unseen">Effective tension and maximum tension in each load case</caption>
      <thead><tr><th scope="col">Case</th><th scope="col">Effective<small>${newton}</small></th><th
        scope="col">Maximum<small>${newton}</small></th><th
          scope="col">Maximum<small>${line}</small></th></tr></thead>
      <tbody>${cases.map(
        ({ name, pull, most }) =>
          html`<tr class=${governs(most.value) ? 'skew-chosen' : ''}><th
            scope="row">${name}${governs(most.value) ? html`<small>governs</small>` : nothing}</th><td
              class="skew-number">${figureLink(desk, pull)}</td><td
              class="skew-number">${figureLink(desk, most)}</td><td
              class="skew-number">${perWidth(most.value)}</td></tr>`,
      )}</tbody>
      <tbody>${points.map(
        ({ name, force: own }, at) => html`<tr
        class=${
          own.header === 'Maximum tension' ? 'pull-sum' : at === 0 ? 'pull-points' : ''
        }><th scope="row">${name}</th><td></td><td
          class="skew-number">${figureLink(desk, own)}</td><td class="skew-number">${perWidth(own.value)}</td></tr>`,
      )}</tbody>
    </table>
    <p class="caption">One slack-side tension (T2) covers all cases: the worst case sets it, by slip at a drive or
      by sag, or a heavier Take-up weight.</p>`;
}

function content(desk: Desk, record: number): TemplateResult {
  const pull = beltPull(desk.book, record);
  const { working, from } = pull;
  const says =
    working.value === undefined
      ? 'no working tension'
      : `${inColumn(desk.book, belts.name, 'Working tension', working.value)} ` +
        `${unitOf('lineTension', desk.book.units)}, ` +
        `${title[from] ?? from}`;
  return html`
    <h3 class="joint-name">${new Belt(desk.book, record).name || unnamedBelt} <span>${says}</span></h3>
    ${routesTable(desk, pull)} ${casesTable(desk, pull)} ${pulleyList(desk, record)}
  `;
}

export function pullView(desk: Desk): unknown {
  const record = shownBelt(desk);
  if (record === undefined)
    return html`<p class="empty" data-enter
      tabindex="0">Select a belt to see its tension by every method that its data allow, the load cases, and its
        pulleys.</p>`;
  return guard([desk.book.state, record, sideWidth(desk)], () => content(desk, record));
}
