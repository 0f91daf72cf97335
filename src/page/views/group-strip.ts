import { html, nothing, type TemplateResult } from 'lit-html';
import { beltGroups } from '../../../sheets/belts/groups.ts';
import { belts } from '../../../sheets/belts/index.ts';
import type { Desk } from '../desk.ts';

/** Groups of columns above the sheet of belts: a press folds a group away and brings it back. */
export function groupStrip(desk: Desk): TemplateResult | typeof nothing {
  if (desk.sheet !== belts.name) return nothing;
  const fold = (names: readonly string[]): void => {
    desk.folded = new Set(names);
    desk.changed();
  };
  const toggled = (name: string): string[] =>
    desk.folded.has(name) ? [...desk.folded].filter((other) => other !== name) : [...desk.folded, name];
  return html`
    <div class="group-strip" role="group" aria-label="Groups of columns">
      <span class="group-label">Columns</span>
      ${beltGroups.map(
        ({ name, doc, headers }) => html`<button class="group ${desk.folded.has(name) ? 'group-folded' : ''}"
          aria-pressed=${!desk.folded.has(name)} title=${`${doc}: ${headers.length} columns`}
          @click=${() => fold(toggled(name))}
        ><span aria-hidden="true">${desk.folded.has(name) ? '▸' : '▾'}</span> ${name}</button>`,
      )}
      ${
        desk.folded.size === 0
          ? nothing
          : html`<button class="group group-all" @click=${() => fold([])}>Show all groups</button>`
      }
    </div>
  `;
}
