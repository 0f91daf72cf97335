import { html, type TemplateResult } from 'lit-html';

/** How formulas are written here: what they may name, and how it is spelt everywhere. */

const spellings: readonly (readonly [example: string, says: string])[] = [
  ['[Width]', 'the column Width in the same row'],
  ['Belts[Width]', 'the whole column Width of the sheet Belts, with the rows that will be added'],
  ["'Plate series'[Pitch]", 'a sheet name with a space needs single quotes'],
  ['D7, $D$7, D2:D9', 'cells; a dollar sign keeps row or column when the formula is copied: F4 turns it'],
  ['Sheet1!B2', 'a cell of another sheet'],
  ['TightMargin', 'a named value of Assumptions, Tables or Units, or one of your own'],
  ['SKEWLENGTH([Width],30)', 'an engineering function; standard functions of spreadsheets work too'],
  ['"text", 1.5, 10%', 'texts in double quotes; numbers with a decimal point, whatever you type elsewhere'],
];

const doing: readonly (readonly [what: string, how: string])[] = [
  [
    'Point',
    'while a value is due, click a cell or press an arrow key; draw with the mouse, or hold Shift, for a range',
  ],
  ['Complete', 'type the beginning of a name, or [ for the columns, and press Tab'],
  ['Check', 'each reference has a colour and a line of its own, in the formula and around its cells'],
  ['Put right', 'a formula that cannot be read stays open, and says what is wrong, where, and what was probably meant'],
  [
    'Fill a column',
    'give a column of your own one formula (Edit, Change this column): rows that are added get it as well',
  ],
];

export const formulaHelp: TemplateResult = html`
  <p>A formula begins with <code>=</code>. Calculation, the formula bar and <code>explain</code> on the command line
    spell columns as you type them.</p>
  <table class="table">
    <thead><tr><th>Write</th><th>For</th></tr></thead>
    <tbody>${spellings.map(
      ([example, says]) => html`<tr><td><code>${example}</code></td><td>${says}</td></tr>`,
    )}</tbody>
  </table>
  <h3>While you write</h3>
  <table class="table">
    <tbody>${doing.map(([what, how]) => html`<tr><td>${what}</td><td>${how}</td></tr>`)}</tbody>
  </table>
  <h3>What you type into cells of your own</h3>
  <p><code>10%</code> is a share, <code>$1,250.00</code> a price, <code>2026-03-04</code> a day, <code>007</code> a
    text. Where <code>1,250</code> or <code>3/4/2026</code> may mean two things, the page asks once; change the answer
    in Assumptions: <code>DecimalMark</code>, <code>DateOrder</code>. Numbers are shown and copied with that decimal
    mark; days as year-month-day, which is read one way only.</p>
`;
