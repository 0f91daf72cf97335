/**
 * Standard functions that there are not, and what to write instead. Those that read a cell by its text would hide from
 * the program what a formula depends on; those that make functions have no place in its formulas.
 */
const needsCells = 'it reads a cell by its text, so that nobody can see what the formula depends on';
const makesFunctions = 'formulas can’t define functions';
const overCells = 'Write the formula for one cell and fill it down';

export const refusedFunctions: Readonly<Record<string, string>> = {
  INDIRECT: `${needsCells}. Use INDEX(range,row,column), or CHOOSE among ranges`,
  CELL: 'what a cell looks like is not known to formulas. Use ISBLANK, ISNUMBER, ISTEXT, ROW or COLUMN',
  INFO: 'what computer it is computed on must not change a result',
  LAMBDA: `${makesFunctions}. Use LET for parts that come twice`,
  MAP: `${makesFunctions}. ${overCells}, or compute with whole ranges, as in A2:A9*2`,
  REDUCE: `${makesFunctions}. Use SUM, PRODUCT or SUMPRODUCT`,
  SCAN: `${makesFunctions}. ${overCells}: =B1+A2 adds up as it goes`,
  BYROW: `${makesFunctions}. ${overCells}`,
  BYCOL: `${makesFunctions}. Write the formula for one column and fill it to the right`,
  MAKEARRAY: `${makesFunctions}. Use SEQUENCE(rows,columns) and compute with it`,
  ISOMITTED: makesFunctions,
  GETPIVOTDATA: 'there are no pivot tables. Use SUMIFS',
  RTD: 'it reads from other programs',
  WEBSERVICE: 'it reads from the network',
  FILTERXML: 'it reads what comes from the network',
  ENCODEURL: 'it is made for the network',
  IMAGE: 'it reads from the network',
  STOCKHISTORY: 'it reads from the network',
  CUBEVALUE: 'it reads from other programs',
  CUBEMEMBER: 'it reads from other programs',
  CUBESET: 'it reads from other programs',
  TEXTSPLIT: 'Use TEXTBEFORE and TEXTAFTER, one for each part',
  EXPAND: 'Use VSTACK and HSTACK to put cells beside a range',
  RANDARRAY: 'Use RAND() in each cell',
  'MODE.MULT': 'Use MODE.SNGL for the first one, COUNTIF for the others',
  PROB: 'Use SUMIFS over the chances: =SUMIFS(chances,values,">=1",values,"<=3")',
  AREAS: 'a reference has one area here',
  ASC: 'it is made for scripts with letters of two widths',
  DBCS: 'it is made for scripts with letters of two widths',
  JIS: 'it is made for scripts with letters of two widths',
  PHONETIC: 'it is made for scripts that are read aloud otherwise than written',
  BAHTTEXT: 'it writes numbers in one language. Use TEXT',
  DOLLAR: 'its sign and places depend on the country. Use TEXT(value,"$#,##0.00")',
  FINDB: 'it counts bytes. Use FIND',
  LEFTB: 'it counts bytes. Use LEFT',
  LENB: 'it counts bytes. Use LEN',
  MIDB: 'it counts bytes. Use MID',
  REPLACEB: 'it counts bytes. Use REPLACE',
  RIGHTB: 'it counts bytes. Use RIGHT',
  SEARCHB: 'it counts bytes. Use SEARCH',
  CALL: 'it runs other programs',
  'REGISTER.ID': 'it runs other programs',
  NUMBERSTRING: 'it writes numbers in one language. Use TEXT',
  ...Object.fromEntries(
    `ACCRINT ACCRINTM AMORDEGRC AMORLINC COUPDAYBS COUPDAYS COUPDAYSNC COUPNCD COUPNUM COUPPCD DISC DURATION INTRATE
     MDURATION ODDFPRICE ODDFYIELD ODDLPRICE ODDLYIELD PRICE PRICEDISC PRICEMAT RECEIVED YIELD YIELDDISC YIELDMAT VDB
     EUROCONVERT`
      .trim()
      .split(/\s+/)
      .map((name) => [name, 'it is made for bonds and bookkeeping, which this program has no use for']),
  ),
};

/**
 * Functions of the engine alone, which no other program has and no book should rest on: they are not offered. What to
 * write instead is ordinary spreadsheet syntax.
 */
export const engineOnly: Readonly<Record<string, string>> = {
  'HF.ADD': 'Write a+b',
  'HF.CONCAT': 'Write a&b',
  'HF.DIVIDE': 'Write a/b',
  'HF.EQ': 'Write a=b',
  'HF.GT': 'Write a>b',
  'HF.GTE': 'Write a>=b',
  'HF.LT': 'Write a<b',
  'HF.LTE': 'Write a<=b',
  'HF.MINUS': 'Write a-b',
  'HF.MULTIPLY': 'Write a*b',
  'HF.NE': 'Write a<>b',
  'HF.POW': 'Write a^b',
  'HF.UMINUS': 'Write -a',
  'HF.UNARY_PERCENT': 'Write a%',
  'HF.UPLUS': 'Write a',
  ARRAY_CONSTRAIN: 'Use TAKE(range,rows,columns)',
  COUNTUNIQUE: 'Use ROWS(UNIQUE(range))',
  INTERVAL: 'Use TEXT(value,"[h]:mm:ss")',
  ISBINARY: 'Use ISNUMBER(DECIMAL(text,2))',
  MAXPOOL: 'Use MAX over each part of the range',
  MEDIANPOOL: 'Use MEDIAN over each part of the range',
  SPLIT: 'Use TEXTBEFORE and TEXTAFTER',
  ARRAYFORMULA: 'Formulas compute with whole ranges without it',
  VERSION: 'what computes it must not change a result',
};
