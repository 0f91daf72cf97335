import { cardsPdf } from '../card/card-pdf.ts';
import type { CardPaper } from '../card/card-flow.ts';
import type { CardForm } from '../card/card-form.ts';
import { cardSheet } from '../card/card-rows.ts';
import { type JobCard, noDrawing } from '../card/job-card.ts';
import { isRefused, jointDxf } from '../drawing/joint-dxf.ts';
import type { JointGeometry } from '../drawing/joint.ts';
import { jointTemplate } from '../drawing/joint-template.ts';
import { paperSvg } from '../drawing/paper-svg.ts';
import { shopDrawing } from '../drawing/shop-drawing.ts';
import { laidBook } from '../xlsx/write/laid-book.ts';
import { bookType } from './downloading.ts';

/** What a card may be taken along as. */
export interface CardFile {
  readonly label: string;
  readonly doc: string;
  /** What follows the belt's name in the file's. */
  readonly ending: string;
  readonly type: string;
  /** It holds one joint; the others hold all cards. */
  readonly single?: true;
  /** The file's content, or why there is none. */
  readonly make: (
    cards: readonly JobCard[],
    paper: CardPaper,
    form: CardForm,
  ) => Promise<Uint8Array | string | { readonly refused: string }>;
}

/** The one card with its joint, or why there is nothing to draw or drill by. */
function drawn(
  [card]: readonly JobCard[],
  wanted: 'drawing' | 'pattern',
): { readonly card: JobCard; readonly joint: JointGeometry } | { readonly refused: string } {
  if (card === undefined) return { refused: 'There is no card.' };
  const refused = noDrawing(card, wanted);
  return card.joint === undefined || refused !== undefined ? { refused: refused ?? '' } : { card, joint: card.joint };
}

export const cardFiles: readonly CardFile[] = [
  {
    label: 'PDF',
    doc: 'the cards as PDF, the drawing as lines',
    ending: ' job card.pdf',
    type: 'application/pdf',
    make: cardsPdf,
  },
  {
    label: '.xlsx',
    doc: 'the cards as sheets of a spreadsheet',
    ending: ' job card.xlsx',
    type: bookType,
    make: (cards, paper, form) =>
      laidBook(
        cards.map((card) => cardSheet(card, form)),
        { title: 'Job card', paper: paper === 'A4' ? 9 : 1 },
      ),
  },
  {
    label: 'Template 1:1',
    doc: 'cut and holes at full size, printed on sheets to tape together and lay on the belt',
    ending: ' template.pdf',
    type: 'application/pdf',
    single: true,
    make: (cards, paper) => {
      const one = drawn(cards, 'pattern');
      return 'refused' in one ? Promise.resolve(one) : jointTemplate(one.joint, { ...one.card, paper });
    },
  },
  {
    label: 'DXF',
    doc: 'cut, holes and plates at full size, for a cutting table or a drill',
    ending: ' joint.dxf',
    type: 'image/vnd.dxf',
    single: true,
    make: (cards) => {
      const one = drawn(cards, 'pattern');
      return 'refused' in one ? Promise.resolve(one) : jointDxf(one.joint, one.card);
    },
  },
  {
    label: 'SVG',
    doc: 'the drawing of the joint',
    ending: ' joint.svg',
    type: 'image/svg+xml',
    single: true,
    make: (cards) => {
      const one = drawn(cards, 'drawing');
      return Promise.resolve('refused' in one ? one : paperSvg(shopDrawing(one.joint, one.card)));
    },
  },
];

export { isRefused };
