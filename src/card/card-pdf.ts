import type { Paper } from '../drawing/paper.ts';
import { paperPdf, inPdfFonts } from '../drawing/paper-pdf.ts';
import type { CardPaper } from './card-flow.ts';
import { cardPapers } from './card-pages.ts';
import { type CardForm, sectionsOf } from './card-form.ts';
import type { Section } from './section.ts';
import type { JobCard } from './job-card.ts';

/** Letters of a print that the fonts of a PDF do not hold, each once. */
const unheld = (papers: readonly Paper[]): string[] =>
  [
    ...new Set(papers.flatMap(({ marks }) => marks.flatMap((mark) => (mark.type === 'text' ? [...mark.text] : [])))),
  ].filter((letter) => !inPdfFonts(letter));

const mostNamed = 30;

/** A card's pages; where letters can't be printed, its second section says which. */
function honestPapers(card: JobCard, paper: CardPaper, form: CardForm): Paper[] {
  const sections = sectionsOf(card, form);
  const papers = cardPapers(card, paper, sections);
  const letters = unheld(papers);
  if (letters.length === 0) return papers;
  const named = letters
    .slice(0, mostNamed)
    .map((letter) => `U+${(letter.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`)
    .join(', ');
  const note: Section = {
    type: 'note',
    strong: true,
    text:
      `The fonts of this PDF lack ${letters.length === 1 ? 'a letter' : `${letters.length} letters`} of this ` +
      `card (${named}${letters.length > mostNamed ? ' and more' : ''}): each is printed as "?". The page's own print ` +
      `and the .xlsx file have them.`,
  };
  const [head, ...rest] = sections;
  return head === undefined ? papers : cardPapers(card, paper, [head, note, ...rest]);
}

/**
 * The cards one after the other as a PDF, black on white; each begins on a page of its own and counts its own pages.
 */
export function cardsPdf(cards: readonly JobCard[], paper: CardPaper, form: CardForm = 'long'): Promise<Uint8Array> {
  const [first] = cards;
  const name =
    cards.length === 1 && first !== undefined ? `Job card of belt ${first.belt}` : `Job cards of ${cards.length} belts`;
  return paperPdf(
    cards.flatMap((card) => honestPapers(card, paper, form)),
    name,
  );
}
