import { html, nothing, type TemplateResult } from 'lit-html';
import { legalNotice } from '../../workbook/legal-notice.ts';
import { evaluationTerms } from '../grid/grid-licence.ts';

/** Whose the program and its parts are, and what may be done with them: the page of Help. */
export const licencePage: TemplateResult = html`
  <p class="legal">${legalNotice.join('\n')}</p>
  <p>Full text: <a href="./LICENSE" target="_blank"
    rel="noopener">LICENSE</a>. Packages in this page, with their licences: <a href="./THIRD-PARTY.txt"
      target="_blank" rel="noopener">THIRD-PARTY.txt</a>.</p>
  ${
    evaluationTerms === undefined
      ? nothing
      : html`<h3>The grid</h3>${evaluationTerms.map((text) => html`<p>${text}</p>`)}`
  }
`;
