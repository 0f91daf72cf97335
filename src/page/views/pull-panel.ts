import { inColumn } from '../cell-text.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import { guard } from 'lit-html/directives/guard.js';
import { type BeltFigure, type BeltPull, beltPull, type Route } from '../../advice/belt-pull.ts';
import { Belt, beltColumn, unnamedBelt } from '../../records/belt.ts';
import { listed, share } from '../../sheet/words.ts';
import { unitOf } from '../../units/quantities.ts';

import { belts } from '../../../sheets/belts/index.ts';
import type { Desk } from '../desk.ts';
import { shownBelt } from '../shown-belt.ts';
import { sideWidth } from '../side-size.ts';
import { pulleyList } from './pulley-list.ts';

/** The pull on a belt: its tension by every way that its record allows, in the cases of load, and on its pulleys. */

const title: Readonly<Record<string, string>> = {
  entered: 'as entered',
  resistances: 'by the resistances',
  power: 'by motor power and speed',
  'belt rating': 'the belt rating',
};

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
    route === null ? 'letting the record decide' : `taking the tension ${title[route] ?? route}`,
  );
}

/** What stands beside a route: whether it is used and why, or why it cannot be. */
function standing(route: Route, { forced, from }: BeltPull): string {
  if (route.used && forced !== undefined) return 'used: forced by Tension method';
  if (route.used)
    return route.name === 'belt rating'
      ? 'used: the last resort, nothing surer is known'
      : 'used: the surest that the record allows';
  if (route.tension.value !== undefined)
    return forced === undefined && from === 'not known'
      ? 'not used: an input of the routes will not do'
      : 'for comparison';
  if (route.lacks.length > 0) return `lacks ${listed(route.lacks, 'and', 5)}`;
  return route.wrong ?? '';
}

function routeRow(desk: Desk, pull: BeltPull, route: Route): TemplateResult {
  const {
    working: { value: working },
    forced,
    choice,
  } = pull;
  const { name, tension, used } = route;
  const offset =
    working === undefined || tension.value === undefined || used || working === 0
      ? undefined
      : tension.value / working - 1;
  return html`<tr class=${used ? 'skew-chosen' : ''}>
    <th scope="row">${title[name] ?? name}<small>${standing(route, pull)}</small></th>
    <td class="skew-number">${figureLink(desk, tension)}${
      offset === undefined ? nothing : html`<small>${offset < 0 ? '\u2212' : '+'}${share(Math.abs(offset))}</small>`
    }</td>
    <td class="pull-use"><button class="small" aria-pressed=${forced === name}
      aria-label="Take the tension ${title[name] ?? name}"
      ?disabled=${tension.value === undefined && forced !== name}
      title=${
        forced === name
          ? 'Forced: press again to let the record decide'
          : 'Writes it into Tension method; one undo takes it back'
      } @click=${() =>
        force(desk, forced === name ? null : name, choice)}>${forced === name ? 'Forced' : 'Use this'}</button></td>
  </tr>`;
}

function routesTable(desk: Desk, pull: BeltPull): TemplateResult {
  const { difference, margin, forced, choice } = pull;
  const apart = difference !== undefined && margin !== undefined && difference > margin;
  return html`
    <table class="skew-table">
      <caption class="unseen">Ways to the working tension</caption>
      <thead><tr><th scope="col">Working tension</th><th
        scope="col">Tension<small>${unitOf('lineTension', desk.book.units)}</small></th><th scope="col"><span
          class="unseen">Choice</span></th></tr></thead>
      <tbody>${pull.routes.map((route) => routeRow(desk, pull, route))}</tbody>
    </table>
    ${
      difference === undefined
        ? nothing
        : html`<p class=${apart ? 'remark' : 'caption'}>The ways differ by ${share(difference)} of the largest${
            margin === undefined ? '' : `, ${apart ? 'more' : 'no more'} than MethodMargin, ${share(margin)}`
          }.${apart ? ' Look which of ' + 'their inputs is off ' + 'before you rely on ' + 'one.' : ''}</p>`
    }
    ${
      forced === undefined
        ? nothing
        : html`<p class="pull-free"><button class="button"
      @click=${() => force(desk, null, choice)}>Let the record decide</button></p>`
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
    return html`<h4 class="working-head">Cases of load</h4><p class="caption">They need the tension by the resistances${
      lacks.length === 0 ? '' : `, which lacks ${listed(lacks, 'and', 5)}`
    }.</p>`;
  }
  const greatest = points.find(({ force: { header } }) => header === 'Maximum tension')?.force.value;
  const governs = (value: number | undefined): boolean =>
    value !== undefined && greatest !== undefined && value >= greatest * (1 - 1e-9);
  return html`
    <h4 class="working-head">Cases of load${from === 'resistances' ? '' : ', by the resistances'}</h4>
    <table class="skew-table">
      <caption class="unseen">Pull at the drive and the tight side, case by case</caption>
      <thead><tr><th scope="col">Case</th><th scope="col">Pull<small>${newton}</small></th><th
        scope="col">Tight side<small>${newton}</small></th><th
          scope="col">Tight side<small>${line}</small></th></tr></thead>
      <tbody>${cases.map(
        ({ name, pull, tight }) =>
          html`<tr class=${governs(tight) ? 'skew-chosen' : ''}><th
            scope="row">${name}${governs(tight) ? html`<small>governs</small>` : nothing}</th><td
              class="skew-number">${figureLink(desk, pull)}</td><td class="skew-number">${
                tight === undefined ? '' : inColumn(desk.book, belts.name, pull.header, tight)
              }</td><td class="skew-number">${perWidth(tight)}</td></tr>`,
      )}</tbody>
      <tbody>${points.map(
        ({ name, force: own }) => html`<tr
        class=${own.header === 'Maximum tension' ? 'pull-sum' : ''}><th scope="row">${name}</th><td></td><td
          class="skew-number">${figureLink(desk, own)}</td><td class="skew-number">${perWidth(own.value)}</td></tr>`,
      )}</tbody>
    </table>
    <p class="caption">One slack tension serves all cases: that of the case which needs most, for grip on the drive or
      against sag.</p>`;
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
      tabindex="0">Select a belt to see its tension by every way that its record allows, the cases of load, and its
        pulleys.</p>`;
  return guard([desk.book.state, record, sideWidth(desk)], () => content(desk, record));
}
