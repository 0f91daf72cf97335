import { counted } from '../../units/phrases.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import type { OfferedCrew } from '../../outage/crews-and-windows.ts';
import { hoursText, type Moment, momentText } from '../../outage/moments.ts';
import type { OutageWindow } from '../../outage/search/request.ts';
import { plain } from '../planning/figures.ts';
import type { Kind, OutageSession } from './outage-session.ts';

/** The crews and windows of the book, to tick those that the plan may take. */

const names: Readonly<Record<Kind, string>> = { crews: 'Crews', windows: 'Windows' };

/** A later moment as short as the one before it allows: the hour alone on the same day, no year in the same year. */
function laterText(start: Moment, end: Moment): string {
  const [from, to] = [momentText(start), momentText(end)];
  return to.slice(from.slice(0, 10) === to.slice(0, 10) ? 11 : from.slice(0, 4) === to.slice(0, 4) ? 5 : 0);
}

function crewText({ people, area, shift, from, to }: OfferedCrew): string {
  const presence =
    from !== undefined && to !== undefined
      ? `${momentText(from)} to ${laterText(from, to)}`
      : from !== undefined
        ? `from ${momentText(from)}`
        : to !== undefined
          ? `until ${momentText(to)}`
          : '';
  return [
    counted(people, 'person', 'people'),
    ...(shift === undefined ? [] : [shift]),
    ...(area === undefined ? [] : [`${area} only`]),
    ...(presence === '' ? [] : [presence]),
  ].join(', ');
}

function windowText({ start, end, area, lossShare = 1 }: OutageWindow): string {
  const loss = lossShare === 1 ? undefined : lossShare === 0 ? 'no loss' : `${plain(100 * lossShare)} % loss`;
  return [
    `${momentText(start)} to ${laterText(start, end)}`,
    ...(area === undefined ? [] : [`${area} only`]),
    ...(loss === undefined ? [] : [loss]),
  ].join(', ');
}

/** In full, for who points at it. */
function windowTitle({ name, start, end, area, lossShare = 1 }: OutageWindow): string {
  return (
    `${name}: ${momentText(start)} to ${momentText(end)}, ${hoursText((end - start) / 60)}, for ` +
    `${area === undefined ? 'every area' : `the area ${area}`}; ${plain(100 * lossShare)} % of the lost production ` +
    `is counted`
  );
}

interface Item {
  readonly name: string;
  readonly text: string;
  readonly title: string;
}

function row(session: OutageSession, kind: Kind, items: readonly Item[]): TemplateResult | typeof nothing {
  if (items.length === 0) return nothing;
  const all = items.map(({ name }) => name);
  const ticked = all.filter((name) => session.ticked(kind, name)).length;
  return html`
    <div class="outage-kind" role="group" aria-label=${names[kind]}>
      <span class="outage-kind-name"><b>${names[kind]}</b> <span class="soft">${ticked} of ${all.length}</span>${
        all.length < 3
          ? nothing
          : html`
        <br /><button class="small" ?disabled=${ticked === all.length}
          @click=${() => session.tick(kind, all, true)}>All</button> <button class="small" ?disabled=${ticked === 0}
            @click=${() => session.tick(kind, all, false)}>None</button>`
      }</span>
      <span class="outage-ticks">${items.map(
        ({ name, text, title }) => html`
        <label title=${title}><input type="checkbox" .checked=${live(session.ticked(kind, name))} @change=${(
          event: Event,
        ) =>
          session.tick(
            kind,
            [name],
            (event.target as HTMLInputElement).checked,
          )} /> <b>${name}</b> <span class="soft">${text}</span></label>`,
      )}
      </span>
    </div>`;
}

export function choiceStrip(session: OutageSession): TemplateResult | typeof nothing {
  const { offered } = session;
  if (offered === undefined || offered.crews.length + offered.windows.length === 0) return nothing;
  return html`<div class="outage-choice">
    ${row(
      session,
      'crews',
      offered.crews.map((crew) => ({
        name: crew.name,
        text: crewText(crew),
        title: `${crew.name}: ${crewText(crew)}`,
      })),
    )}
    ${row(
      session,
      'windows',
      offered.windows.map((window) => ({ name: window.name, text: windowText(window), title: windowTitle(window) })),
    )}
  </div>`;
}
