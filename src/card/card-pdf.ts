import type { Paper } from '../drawing/paper.ts';
import { paperPdf, inPdfFonts } from '../drawing/paper-pdf.ts';
import type { CardPaper } from './card-flow.ts';
import { cardPapers, sectionPapers } from './card-pages.ts';
import { type CardForm, sectionsOf } from './card-form.ts';
import type { Section } from './section.ts';
import type { JobCard } from './job-card.ts';

/** Letters of a print that the fonts of a PDF do not hold, each once. */
const unheld = (papers: readonly Paper[]): string[] =>
  [
    ...new Set(papers.flatMap(({ marks }) => marks.flatMap((mark) => (mark.type === 'text' ? [...mark.text] : [])))),
  ].filter((letter) => !inPdfFonts(letter));

const mostNamed = 30;

/**
 * Sections with a second one that says which letters of theirs can't be printed; as they are where all can.
 * `what` is what they are called, `elsewhere` where all letters are.
 */
function honestSections(
  sections: readonly Section[],
  papers: readonly Paper[],
  what: string,
  elsewhere: string,
): readonly Section[] {
  const letters = unheld(papers);
  const [head, ...rest] = sections;
  if (letters.length === 0 || head === undefined) return sections;
  const named = letters
    .slice(0, mostNamed)
    .map((letter) => `U+${(letter.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`)
    .join(', ');
  const note: Section = {
    type: 'note',
    strong: true,
    text:
      `The fonts of this PDF lack ${letters.length === 1 ? 'a letter' : `${letters.length} letters`} of this ` +
      `${what} (${named}${letters.length > mostNamed ? ' and more' : ''}): each is printed as "?". ${elsewhere}`,
  };
  return [head, note, ...rest];
}

/** A card's pages; where letters can't be printed, its second section says which. */
function honestPapers(card: JobCard, paper: CardPaper, form: CardForm): Paper[] {
  const sections = sectionsOf(card, form);
  const papers = cardPapers(card, paper, sections);
  const honest = honestSections(sections, papers, 'card', "The page's own print and the .xlsx file have them.");
  return honest === sections ? papers : cardPapers(card, paper, honest);
}

/** Sections as a PDF, black on white; every page says what it is a page of. */
export function sectionsPdf(
  sections: readonly Section[],
  paper: CardPaper,
  foot: { readonly name: string; readonly of: string },
): Promise<Uint8Array> {
  const papers = sectionPapers(sections, paper, foot);
  const honest = honestSections(sections, papers, foot.name.toLowerCase(), 'The .xlsx file has them.');
  return paperPdf(honest === sections ? papers : sectionPapers(honest, paper, foot), `${foot.name} ${foot.of}`);
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
