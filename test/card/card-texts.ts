import { cardsHtml } from '../../src/card/card-html.ts';
import type { JobCard } from '../../src/card/job-card.ts';

/** One card as the document that a browser prints. */
export const cardHtml = (card: JobCard): string => cardsHtml([card], 'A4');
