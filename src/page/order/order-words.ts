import { html, type TemplateResult } from 'lit-html';
import type { Progress } from '../../buying/solver.ts';
import type { Running } from './order-session.ts';

/** Figures and progress as the order dialog writes them. */

export const money = (value: number): string => value.toLocaleString('en-US', { minimumFractionDigits: 2, maximumFractionDigits: 2 });
export const wholeMoney = (value: number): string => Math.round(value).toLocaleString('en-US');
export const percent = (value: number): string => `${(value * 100).toFixed(1)} %`;

/** A quantity with as many digits as it needs, at most two. */
export const plain = (value: number): string => value.toLocaleString('en-US', { maximumFractionDigits: Math.abs(value) < 10 ? 2 : 1 });

const progressText = ({ stage, best, bound, seconds }: Progress): string =>
  [stage, ...(best === undefined ? [] : [`best ${wholeMoney(best)}`]), ...(bound === undefined || bound <= 0 ? [] : [`at least ${wholeMoney(bound)}`]), `${seconds.toFixed(0)} s`].join(' · ');

/** What a search is doing, with a way to end it. */
export const searching = (what: string, running: Running | undefined, stop: () => void): TemplateResult => html`
  <p class="order-search" role="status">
    <span class="order-pulse" aria-hidden="true"></span>
    <span>${what}${running?.progress === undefined ? ' …' : `: ${progressText(running.progress)}`}</span>
    <button class="small" @click=${stop}>Cancel</button>
  </p>`;
