import { html, nothing, type TemplateResult } from 'lit-html';
import type { Desk } from '../desk.ts';
import type { Importing } from '../importing.ts';
import type { SkewFeed } from '../skew-feed.ts';
import { askDialog } from './ask-dialog.ts';
import { booksDialog } from './books-dialog.ts';
import { columnsDialog } from './columns-dialog.ts';
import { cureDialog } from './cure-dialog.ts';
import { dayBanner } from './day-banner.ts';
import { findBar } from './find-bar.ts';
import { formulaBar } from './formula-bar.ts';
import { helpDialog } from './help-dialog.ts';
import { importDialog } from './import-dialog.ts';
import { notices } from './notices.ts';
import { reviewDialog } from './review-dialog.ts';
import { sheetTabs } from './sheet-tabs.ts';
import { formatDialog } from './format-dialog.ts';
import { habitDialog } from './habit-dialog.ts';
import { ownColumnDialog } from './own-column-dialog.ts';
import { ownNameDialog } from './own-name-dialog.ts';
import { side } from './side.ts';
import { topBar } from './top-bar.ts';
import { versionsDialog } from './versions-dialog.ts';
import { viewStrip } from './view-strip.ts';
import { welcomeStrip } from './welcome-strip.ts';

/** What is under way for a view. */
interface UnderWay {
  readonly importing: Importing;
  readonly skews: SkewFeed;
}

function openDialog(desk: Desk, importing: Importing): TemplateResult | typeof nothing {
  switch (desk.dialog?.kind) {
    case undefined:
      return nothing;
    case 'ask':
      return askDialog(desk, desk.dialog);
    case 'cure':
      return cureDialog(desk, desk.dialog);
    case 'columns':
      return columnsDialog(desk, desk.dialog);
    case 'own-column':
      return ownColumnDialog(desk, desk.dialog);
    case 'own-name':
      return ownNameDialog(desk, desk.dialog);
    case 'format':
      return formatDialog(desk);
    case 'habit':
      return habitDialog(desk, desk.dialog);
    case 'help':
      return helpDialog(desk);
    case 'review':
      return reviewDialog(desk, desk.dialog);
    case 'books':
      return desk.library === undefined ? nothing : booksDialog(desk, desk.library);
    case 'versions':
      return desk.library === undefined ? nothing : versionsDialog(desk, desk.library, desk.dialog);
    case 'import':
      return importDialog(desk, importing);
  }
}

/** The whole page around the grids' own element. */
export function page(desk: Desk, { importing, skews }: UnderWay, grids: HTMLElement): TemplateResult {
  return html`
    ${topBar(desk)}
    <div class="bars">${dayBanner(desk)}${welcomeStrip(desk)}${formulaBar(desk)}${viewStrip(desk)}${findBar(desk)}</div>
    <main class="work">
      ${grids}${side(desk, skews)}
    </main>
    ${sheetTabs(desk)} ${notices(desk)} ${openDialog(desk, importing)}
  `;
}
