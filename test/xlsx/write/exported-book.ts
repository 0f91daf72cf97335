import type { Content } from '../../../src/formula/values.ts';
import type { BookRow, BookState, SheetState } from '../../../src/workbook/state.ts';
import type { UnitSystem } from '../../../src/units/quantities.ts';
import { convertedBook } from '../../../src/workbook/conversion.ts';
import { bookOf, letters, loopOf, soundBelt } from '../../workbook/books.ts';

/** A book that holds what a file finds hard: overrides, remarks, own columns, free sheets, formulas of every sort. */

export const stamp = new Date(Date.UTC(2026, 10, 25, 8, 0, 0));

/** Formulas of a user, each in a cell of its own in the sheet "Trials", with what they are to show. */
export const trials: readonly { readonly formula: string; readonly says: string }[] = [
  { formula: '=SKEWLENGTH(650,45)', says: 'one of our functions' },
  { formula: '=SKEWLENGTH(Belts!D2,Belts!V2)+SKEWLOSS(Belts!D2,Belts!V2)', says: 'ours over cells of the fleet' },
  { formula: '=skewlength(belts!d2,belts!v2)', says: 'the same in small letters' },
  { formula: '=SKEWLENGTH("wide",45)', says: 'ours with a text for a number' },
  { formula: '=PLATECOUNT(650,61,45,42,38.12)', says: 'ours out of bounds' },
  { formula: '=MINPULLEY(450,-1)', says: 'a negative angle' },
  { formula: '=TIGHTMARGIN*100', says: 'a named value, whatever its case' },
  { formula: '=SUM(Belts!D:D)', says: 'a whole column' },
  { formula: "=INDEX('Plate series'!A:A,MATCH(\"heron\",'Plate series'!A:A,0))", says: 'a look-up' },
  { formula: '=IF(Belts!D2>700,"wide","narrow")', says: 'a text' },
  { formula: '=Belts!D2>700', says: 'a truth' },
  { formula: '=1/0', says: 'division by zero' },
  { formula: '=NA()', says: 'not available' },
  { formula: '=10^400', says: 'no number' },
  { formula: '=VLOOKUP("none",Belts!A:D,4,FALSE())', says: 'not found' },
  { formula: '="text"+1', says: 'arithmetic on a text' },
  { formula: '=0', says: 'zero' },
  { formula: '=""', says: 'an empty text' },
  { formula: '=1=2', says: 'false' },
  { formula: '=Belts!A40', says: 'an empty cell' },
  { formula: '=-2^2', says: 'a sign binds tighter than a power' },
  { formula: '=2^3^2', says: 'powers from the left' },
  { formula: '=10%+.5+1.', says: 'numbers as people type them' },
  { formula: '="a & <marked> word"', says: 'signs that XML minds' },
  { formula: '=NORM.S.INV(0.975)', says: 'newer than the format' },
  { formula: '=IFS(Belts!D2>1000,"big",TRUE(),"small")', says: 'newer still' },
  { formula: '=TEXTJOIN(", ",TRUE(),Belts!A2:A3)', says: 'newer, over a range' },
  { formula: '=CEILING.MATH(6.3)+STDEV.S(1,2,4)', says: 'newer, with points in the name' },
  { formula: '=SUMPRODUCT((Belts!D2:D4>700)*Belts!D2:D4)', says: 'products over ranges' },
  { formula: '=SUM(Belts!D2:D4*2)', says: 'arithmetic on a range inside a sum' },
  { formula: '=MAX(IF(Belts!D2:D4>700,Belts!D2:D4,0))', says: 'a choice for each cell of a range' },
  { formula: '=SUM({1,2;3,4})', says: 'a list written out' },
  { formula: '=COUNT(Assumptions!B2:B19)', says: 'over the named values' },
  { formula: "='It''s a trial'!A2*2", says: 'a sheet name with an apostrophe' },
  { formula: "='In / Out?'!A2+1", says: 'a sheet name that files refuse' },
  { formula: '=ROUND(BELTLOOP(12000,500,400)/1000,3)', says: 'ours within standard ones' },
  { formula: '=WORSTVERDICT("fits","tight","fits","fits","fits","fits","fits","fits")', says: 'a verdict' },
  {
    formula: `=WORSTVERDICT(Belts!${letters('Pulley check')}2:${letters('Age check')}2,"fits")`,
    says: 'a verdict over a row of cells',
  },
  {
    formula: `=WORSTVERDICT(Belts!${letters('Edge check')}2:${letters('Take-up check')}7,"fits")`,
    says: 'a verdict over a block of cells',
  },
  { formula: '=CARCASSMATERIAL("EP 400/3 4+2")', says: 'a text from ours' },
  { formula: '=TEXT(1234.5,"#,##0.0")&TEXT(46000,"d mmm yyyy")', says: 'numbers as texts' },
  { formula: '=AVERAGEIFS(Belts!D2:D9,Belts!D2:D9,">600")', says: 'a mean under conditions' },
  { formula: '=RANK.EQ(Belts!D2,Belts!D2:D9)+AGGREGATE(14,6,Belts!D2:D9,1)', says: 'places among others' },
  { formula: '=INDEX(TREND({1;2;4},{1;2;3}),2)+FORECAST.LINEAR(3,{1;2;4},{1;2;3})', says: 'lines through points' },
  { formula: '=TABLEVALUE(86,{80;100},{1.92;1.78})*2', says: 'ours, between the entries of a table' },
  { formula: '=LENGTHFACTOR(86)*2', says: 'ours, by the figures of the sheet Tables' },
];

/** Formulas that a file cannot hold as such, with a word of the reason that is told. */
export const unwritable: readonly { readonly formula: string; readonly because: string }[] = [
  {
    formula: '=XLOOKUP("B1",Belts!A2:A3,Belts!D2:D3)',
    because: 'not all spreadsheet programs have the function XLOOKUP',
  },
  { formula: '=XMATCH(1,{1,2})', because: 'not all spreadsheet programs have the function XMATCH' },
  { formula: '=NOSUCHNAME+1', because: 'there is no named value NOSUCHNAME' },
  { formula: '=NOSUCHSHEET!A1', because: 'the book has no sheet NOSUCHSHEET' },
  { formula: '=A10', because: 'depends on its own result' },
  { formula: '=1+', because: 'is not a valid formula' },
  { formula: '=Belts!D1&"?"', because: 'reaches into the headers of Belts' },
  { formula: `=LEN("${'x'.repeat(300)}")`, because: 'a text in it has more than 255 characters' },
  { formula: '=SUM(PLATESPOTS(400,0,120,90,10))', because: 'PLATESPOTS fills several cells' },
  { formula: '=SKEWLENGTH(Belts!D2:D3,45)', because: 'is given a range where it needs a length' },
  {
    formula: `=${Array.from({ length: 24 }, () => 'CARCASSMATERIAL(Belts!E2)').join('&')}`,
    because: 'characters, and a cell holds at most',
  },
  { formula: `=${'ABS('.repeat(70)}1${')'.repeat(70)}`, because: 'more than 64 levels deep' },
];

const free = (name: string, columns: number, rows: readonly (readonly Content[])[]): SheetState => ({
  name,
  userColumns: Array.from({ length: columns }, (_, index) => ({
    header: `Column ${index + 1}`,
    kind: 'number' as const,
  })),
  rows: rows.map((cells) => ({ cells: Array.from({ length: columns }, (_, column) => cells[column] ?? null) })),
});

/** Spills: ours one plain formula a cell, others one array formula, newer ones as values. */
export const spills = free('Spills', 8, [
  [
    '=PLATESPOTS(400,0,120,90,10)',
    '=HOLESPOTS(100,0,60,50,10,20,30,2)',
    null,
    null,
    '=Belts!D2:D4*2',
    '=TRANSPOSE(Belts!D2:D3)',
    null,
    '=SEQUENCE(3)',
  ],
  ...Array.from({ length: 5 }, () => []),
]);

export const strangeTexts: readonly string[] = [
  '=',
  '+49 40 123',
  '-5 spare',
  '@home',
  "'quoted",
  'tab\tand\nline',
  'bell \u0007 and return \r',
  '_x0041_ as typed',
  '\u{1F6E0} tools',
  ' led by blanks ',
  '12',
  '2026-01-02',
  'TRUE',
  '#N/A',
  '<b>&amp;',
];

export function fullBook(units: UnitSystem): BookState {
  const book = bookOf({
    belts: [
      soundBelt,
      {
        ...soundBelt,
        Belt: 'B2',
        Width: 1200,
        'Smallest pulley': 200,
        'Plate series': 'Heron',
        Plates: 30,
        'Edge clearance': '=D3/100',
        Service: 'underground, magnet',
      },
      {
        ...soundBelt,
        Belt: 'B3',
        Width: 650,
        Power: null,
        'Known tension': 12.5,
        Skew: '=90/2',
        Thickness: '=SKEWLENGTH(D4,0)/65',
      },
      {
        Belt: 'B4',
        Width: 'wide',
        Construction: 'unknown cloth',
        'Plate series': 'No such',
        Skew: 75,
        Speed: -1,
        Installed: 'last year',
      },
      {},
      { ...soundBelt, Belt: 12, Installed: 46400, Power: null, Capacity: 300, 'Plate series': 'plover' },
    ],
    pulleys: [
      ...loopOf('B1'),
      { Belt: 'B3', Pulley: 'only', 'Pulley type': 'bend', Diameter: 'wide', 'Local tension': '=5*2' },
    ],
  });
  const withExtras = book.sheets.map((sheet): SheetState => {
    if (sheet.name !== 'Belts') return sheet;
    const own = [
      { header: 'Remark', kind: 'text' as const },
      { header: 'Spare roll', kind: 'distance' as const },
      { header: 'Remark', kind: 'number' as const },
    ];
    const rows = sheet.rows.map((row, record): BookRow => {
      const cells = [
        ...row.cells,
        strangeTexts[record] ?? null,
        record * 1.5,
        record === 0 ? '=D2+BN2' : record === 1 ? '=$D$2*2' : null,
      ];
      return record === 3
        ? {
            cells,
            notes: { 3: 'Width: "wide" is no length\nsheet Fleet, cell C9', 25: 'Installed: "last year" is no date' },
          }
        : { cells };
    });
    return { ...sheet, userColumns: own, rows };
  });
  const state: BookState = {
    ...book,
    title: 'Works & yard',
    sheets: [
      ...withExtras,
      free(
        'Trials',
        2,
        trials.map(({ formula, says }) => [formula, says]),
      ),
      spills,
      free("It's a trial", 1, [[21], [null], ['=A2+1']]),
      free('In / Out?', 1, [[41]]),
      free(
        'A sheet whose name is longer than files take it',
        2,
        strangeTexts.map((text) => [text, true]),
      ),
      free('belts ', 1, [[false]]),
      free('Findings', 1, [['mine']]),
      free(
        'Values',
        1,
        unwritable.flatMap(({ formula }) => [[formula], []]),
      ),
    ],
  };
  return convertedBook(state, units).state;
}
