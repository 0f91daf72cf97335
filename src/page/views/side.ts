import { html, nothing, type TemplateResult } from 'lit-html';
import { act } from '../actions/action.ts';
import { action } from '../actions/index.ts';
import { printTitle } from '../printing.ts';
import type { Desk, View } from '../desk.ts';
import type { SkewFeed } from '../skew-feed.ts';
import { findingsHeight, findingsHeights, sideWidth, widths } from '../side-size.ts';
import { findingsPanel } from './findings-panel.ts';
import { grip } from './grip.ts';
import { jointView } from './joint-panel.ts';
import { panelHead } from './panel.ts';
import { pullView } from './pull-panel.ts';
import { skewView } from './skew-panel.ts';
import { whatIfView } from './what-if-panel.ts';
import { workingView } from './working-panel.ts';

/** What stands beside the grid: one of the views on tabs, and the findings below it. */

const views: Readonly<
  Record<View, { readonly title: string; readonly content: (desk: Desk, skews: SkewFeed) => unknown }>
> = {
  joint: { title: 'Joint', content: jointView },
  working: { title: 'Calculation', content: workingView },
  skew: { title: 'Skew', content: skewView },
  pull: { title: 'Tension', content: pullView },
  'what-if': { title: 'What if', content: whatIfView },
};

const ids = Object.keys(views) as readonly View[];

function show(desk: Desk, id: View): void {
  desk.view = id;
  desk.changed();
}

function onTabKey(desk: Desk, event: KeyboardEvent): void {
  const step = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
  if (step === 0 || desk.view === undefined) return;
  event.preventDefault();
  const next = ids[(ids.indexOf(desk.view) + step + ids.length) % ids.length];
  if (next === undefined) return;
  (event.currentTarget as HTMLElement).querySelector<HTMLElement>(`#tab-${next}`)?.focus();
  show(desk, next);
}

const tabs = (desk: Desk, view: View): TemplateResult => html`
  <div class="panel-tabs" role="tablist" aria-label="Panels"
    @keydown=${(event: KeyboardEvent) => onTabKey(desk, event)}>
    ${ids.map(
      (id) => html`<button role="tab" id="tab-${id}" class="panel-tab" aria-selected=${id === view}
      aria-controls="side-view" tabindex=${id === view ? 0 : -1}
        @click=${() => show(desk, id)}>${views[id].title}</button>`,
    )}
  </div>`;

const printButton = (desk: Desk): TemplateResult =>
  html`<span class="gap"></span><button class="small quiet" title=${action('print-panel').doc}
    @click=${() => act(action('print-panel'), desk)}>Print</button>`;

const viewPanel = (desk: Desk, view: View, skews: SkewFeed): TemplateResult => html`
  <section class="panel side-panel ${view}-panel" data-area=${view} aria-label=${views[view].title}>
    <h2 class="unseen">${views[view].title}</h2>
    ${panelHead(desk, `panel-${view}`, views[view].title, tabs(desk, view), printButton(desk))}
    <div class="panel-body" id="side-view" role="tabpanel" aria-labelledby="tab-${view}"><p
      class="print-title">${printTitle(desk, views[view].title)}</p>${views[view].content(desk, skews)}</div>
  </section>`;

export function side(desk: Desk, skews: SkewFeed): TemplateResult | typeof nothing {
  const { view, findingsShown } = desk;
  if (view === undefined && !findingsShown) return nothing;
  const width = grip({
    way: 'upright',
    label: 'Width of the panels',
    controls: 'side',
    size: sideWidth(desk),
    ...widths(),
    draw(size) {
      desk.sideWidth = size;
      desk.changed();
    },
  });
  const height = grip({
    way: 'level',
    label: 'Height of the findings',
    controls: 'findings',
    size: findingsHeight(desk),
    ...findingsHeights(),
    draw(size) {
      desk.findingsHeight = size;
      desk.changed();
    },
  });
  return html`
    ${width}
    <aside class="panels" id="side" style="width:${sideWidth(desk)}px">
      ${view === undefined ? nothing : viewPanel(desk, view, skews)} ${
        view !== undefined && findingsShown ? height : nothing
      } ${findingsShown ? findingsPanel(desk, view === undefined ? undefined : findingsHeight(desk)) : nothing}
    </aside>`;
}
