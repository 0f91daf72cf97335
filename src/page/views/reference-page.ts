import { html, nothing, type TemplateResult } from 'lit-html';
import { keyed } from 'lit-html/directives/keyed.js';
import { ref } from 'lit-html/directives/ref.js';
import type { Entry, Group, Section } from '../../reference/entry.ts';
import { referenceSections } from '../../reference/sections.ts';
import type { Desk } from '../desk.ts';
import { keySection } from '../key-section.ts';

/** The reference in Help: its sections to choose from, and a search through all of them. */

const state: { section: string; sought: string } = { section: 'Functions', sought: '' };

/** Made when they are first asked for, and kept: what they are made of does not change. */
const made = new Map<string, Section>();

function kept(title: string, make: () => Section): Section {
  const section = made.get(title) ?? make();
  made.set(title, section);
  return section;
}

/** Longer ones are broken over lines. */
const longestWhole = 40;

const code = (text: string): TemplateResult =>
  html`<code class=${text.length > longestWhole ? '' : 'whole'}>${text}</code>`;

/** A text with what is typed set apart: between backticks; what is stressed stands between double asterisks. */
const inline = (text: string): readonly (string | TemplateResult)[] =>
  text.split(/(`[^`]+`|\*\*[^*]+\*\*)/).map((part) => {
    if (part.startsWith('`') && part.length > 1) return code(part.slice(1, -1));
    return part.startsWith('**') && part.length > 4 ? html`<b>${part.slice(2, -2)}</b>` : part;
  });

const described = ({ name, says, facts }: Entry, first: string | undefined): TemplateResult => {
  const shown = facts.find(({ label, text }) => label === first && text !== '')?.text;
  const head = html`<span>${inline(name)}</span><span>${inline(says)}${
    shown === undefined ? nothing : html` <span class="entry-fact">${inline(shown)}</span>`
  }</span>`;
  return facts.every(({ text }) => text === '')
    ? html`<div class="entry">${head}</div>`
    : html`
      <details class="function">
        <summary>${head}</summary>
        <dl>${facts.map(({ label, text }) =>
          text === '' ? nothing : html`<dt>${inline(label)}</dt><dd>${inline(text)}</dd>`,
        )}</dl>
      </details>`;
};

const groupView = ({ title, about, entries }: Group, first: string | undefined): TemplateResult => html`
  ${title === '' ? nothing : html`<h3>${title}</h3>`}
  ${about === undefined ? nothing : html`<p class="soft">${inline(about)}</p>`}
  ${entries.map((entry) => described(entry, first))}
`;

const sectionView = ({ about, groups, first }: Section): TemplateResult => html`
  ${about.map((text) => html`<p class="soft">${inline(text)}</p>`)}
  ${groups.map((group) => groupView(group, first))}
`;

const words = (text: string): string[] =>
  text
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== '');

/** Whether a word of a text begins so. */
function beginsIn(text: string, word: string): boolean {
  for (let place = text.indexOf(word); place >= 0; place = text.indexOf(word, place + 1))
    if (!/[\p{L}\p{N}]/u.test(text.charAt(place - 1))) return true;
  return false;
}

/**
 * Entries in which every word stands, those first that are called so. Of a name any part counts, as the PULLEY of
 * MINPULLEY; of a text the beginnings of its words, or "sag" would find every message.
 */
function found({ entries }: Group, sought: readonly string[]): Entry[] {
  const isCalled = ({ name }: Entry): boolean => sought.every((word) => name.toLowerCase().includes(word));
  const isSaid = ({ name, says, facts }: Entry): boolean => {
    const text = [name, says, ...facts.flatMap(({ label, text: fact }) => [label, fact])].join(' ').toLowerCase();
    return sought.every((word) => beginsIn(text, word));
  };
  return [...entries.filter(isCalled), ...entries.filter((entry) => !isCalled(entry) && isSaid(entry))];
}

/** What the search looks through: each entry once. What an action does now depends on what is on show. */
const searched = (desk: Desk): (readonly [title: string, section: Section])[] => [
  ...referenceSections.flatMap(({ title, section, picked }) =>
    picked === true ? [] : [[title, kept(title, section)] as const],
  ),
  ['Keys', keySection(desk)],
];

function searchView(desk: Desk, sought: readonly string[]): TemplateResult {
  const groups = searched(desk).flatMap(([title, { groups: all, first }]) =>
    all.flatMap((group) => {
      const entries = found(group, sought);
      const name = group.title === '' ? title : `${title}: ${group.title}`;
      return entries.length === 0 ? [] : [groupView({ title: name, entries }, first)];
    }),
  );
  return groups.length === 0
    ? html`<p class="empty">Nothing in the reference holds these words. Try fewer, or a part of a word.</p>`
    : html`${groups}`;
}

function chosenView(desk: Desk): TemplateResult {
  const chosen = referenceSections.find(({ title }) => title === state.section);
  if (chosen === undefined) return html``;
  const { title, section, picked } = chosen;
  if (picked === true && !made.has(title)) {
    // First the page is drawn, so that nobody looks at one that does not answer.
    setTimeout(() => {
      kept(title, section);
      desk.changed();
    }, 50);
    return html`<p class="empty">Counting the verdicts of the demo …</p>`;
  }
  return sectionView(kept(title, section));
}

/** The dialog that gives the focus to its first field may be there before the field is. */
function focused(field: Element | undefined): void {
  if (field instanceof HTMLInputElement) queueMicrotask(() => field.focus());
}

function choose(desk: Desk, title: string, event: Event): void {
  state.section = title;
  state.sought = '';
  (event.currentTarget as HTMLElement).closest('.dialog-body')?.scrollTo(0, 0);
  desk.changed();
}

export function referencePage(desk: Desk): TemplateResult {
  const sought = words(state.sought);
  return html`
    <div class="reference">
      <div class="reference-side">
        <label class="search">Find in the reference<input type="search" autofocus ${ref(focused)} .value=${state.sought}
          @input=${(event: Event) => {
            state.sought = (event.target as HTMLInputElement).value;
            desk.changed();
          }} /></label>
        <nav class="reference-nav" aria-label="Sections of the reference">${referenceSections.map(
          ({ title }) => html`<button aria-current=${sought.length === 0 && title === state.section}
            @click=${(event: Event) => choose(desk, title, event)}>${title}</button>`,
        )}</nav>
      </div>
      <div class="reference-text">${keyed(
        // What was opened in one section does not stand open in another.
        `${state.section} ${sought.join(' ')}`,
        sought.length === 0 ? chosenView(desk) : searchView(desk, sought),
      )}</div>
    </div>
  `;
}
