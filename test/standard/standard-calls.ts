import { drawn, drawnShape, type Draw } from './argument-kinds.ts';

/**
 * How each standard function is called at random: the kinds of its arguments, one that may be left out in brackets,
 * alternatives with a bar. "…" repeats the last argument up to twice.
 *
 * A function that gives several cells is asked for one of them; `twice` names those whose arguments go in pairs.
 */
export const callKinds: Readonly<Record<string, readonly string[]>> = Object.fromEntries(
  `
  ABS number
  ACOS unit
  ACOSH above1
  ACOT number
  ACOTH number
  ADDRESS natural natural [one] [truth]
  AND truth|truths …
  ARABIC roman
  ASIN unit
  ASINH number
  ATAN number
  ATAN2 number number
  ATANH unit
  AVEDEV numbers|mixed …
  AVERAGE numbers|mixed …
  AVERAGEA numbers|mixed …
  AVERAGEIF numbers criterion [positives]
  AVERAGEIFS numbers wholes criterion
  BASE large base [places]
  BESSELI positive one
  BESSELJ positive one
  BESSELK positive one
  BESSELY positive one
  BETA.DIST chance positive positive cumulative
  BETADIST chance positive positive
  BETA.INV chance positive positive
  BETAINV chance positive positive
  BIN2DEC bits
  BIN2HEX bits [places]
  BIN2OCT bits [places]
  BINOM.DIST count natural chance cumulative
  BINOMDIST count natural chance cumulative
  BINOM.INV natural chance chance
  CRITBINOM natural chance chance
  BITAND count large
  BITLSHIFT count count
  BITOR count large
  BITRSHIFT large count
  BITXOR count large
  CEILING number|tenth number|tenth
  CEILING.MATH number [number] [one]
  CEILING.PRECISE number [number]
  ISO.CEILING number [number]
  CHAR character
  CHISQ.DIST positive natural cumulative
  CHISQ.DIST.RT positive natural
  CHIDIST positive natural
  CHISQ.INV chance natural
  CHISQ.INV.RT chance natural
  CHIINV chance natural
  CHISQ.TEST positives otherPositives
  CHITEST positives otherPositives
  CHOOSE natural anything number word number
  CLEAN long
  CODE word
  COLUMN reference|numbers
  COLUMNS block
  COMBIN count count
  COMBINA count count
  COMPLEX small small [suffix]
  CONCATENATE word number [small]
  CONCAT word|texts|number …
  CONFIDENCE.NORM chance positive natural
  CONFIDENCE chance positive natural
  CONFIDENCE.T chance positive natural
  CORREL numbers positives
  PEARSON numbers positives
  COS angle
  COSH unit
  COT angle
  COTH angle
  COUNT mixed|number|word …
  COUNTA mixed|number|word …
  COUNTBLANK mixed
  COUNTIF numbers|wholes|mixed criterion
  COUNTIFS wholes criterion texts textCriterion
  COVARIANCE.P numbers positives
  COVARIANCE.S numbers positives
  COVAR numbers positives
  CSC angle
  CSCH angle
  CUMIPMT rate periods money natural natural type
  CUMPRINC rate periods money natural natural type
  DATE year small small
  DATEDIF nearDay day unitOfDays
  DATEVALUE dateText
  DAVERAGE database field criteria
  DAY day|moment
  DAYS day day
  DAYS360 day day [truth]
  DB large positive natural natural [natural]
  DCOUNT database field criteria
  DCOUNTA database field criteria
  DDB large positive natural natural [above1]
  DEC2BIN small|count [places]
  DEC2HEX small|large [places]
  DEC2OCT small|large [places]
  DECIMAL bits|hex base
  DEGREES angle
  DELTA small [small]
  DEVSQ numbers|mixed …
  DGET database field criteria
  DMAX database field criteria
  DMIN database field criteria
  DOLLARDE number fraction
  DOLLARFR number fraction
  DPRODUCT database field criteria
  DSTDEV database field criteria
  DSTDEVP database field criteria
  DSUM database field criteria
  DVAR database field criteria
  DVARP database field criteria
  EDATE day small
  EFFECT rate natural
  EOMONTH day small
  ERF unit [unit]
  ERFC number
  ERFC.PRECISE number
  ERF.PRECISE unit|number
  ERROR.TYPE anything
  EVEN number
  EXACT word word
  EXP unit|number
  EXPON.DIST positive positive cumulative
  EXPONDIST positive positive cumulative
  F.DIST positive natural natural cumulative
  F.DIST.RT positive natural natural
  FDIST positive natural natural
  F.INV chance natural natural
  F.INV.RT chance natural natural
  FINV chance natural natural
  F.TEST numbers positives
  FTEST numbers positives
  FACT count
  FACTDOUBLE count
  FALSE
  FIND piece long [natural]
  FISHER unit
  FISHERINV number
  FIXED number [digits] [truth]
  FLOOR number|tenth number|tenth
  FLOOR.MATH number [number] [one]
  FLOOR.PRECISE number [number]
  FORECAST number numbers positives
  FORECAST.LINEAR number numbers positives
  FREQUENCY numbers ascending
  FV rate periods money [money] [type]
  FVSCHEDULE money positives
  GAMMA positive|number
  GAMMA.DIST positive positive positive cumulative
  GAMMADIST positive positive positive cumulative
  GAMMA.INV chance positive positive
  GAMMAINV chance positive positive
  GAMMALN positive
  GAMMALN.PRECISE positive
  GAUSS number
  GCD count|wholes …
  GEOMEAN positives|mixed …
  GROWTH positives numbers wholes
  HARMEAN positives|mixed …
  HEX2BIN hex [places]
  HEX2DEC hex
  HEX2OCT hex [places]
  HLOOKUP head table index isExact
  HOUR moment
  HYPGEOM.DIST one natural natural large cumulative
  HYPGEOMDIST one natural natural large
  IF truth|number anything [anything]
  IFERROR anything number
  IFNA anything number
  IFS truth number truth word
  IMABS complex
  IMAGINARY complex
  IMARGUMENT complex
  IMCONJUGATE complex
  IMCOS complex
  IMDIV complex complex
  IMEXP complex
  IMLN complex
  IMLOG10 complex
  IMLOG2 complex
  IMPOWER complex small
  IMPRODUCT complex …
  IMREAL complex
  IMSIN complex
  IMSQRT complex
  IMSUB complex complex
  IMSUM complex …
  INDEX block index index
  INT number|tenth
  INTERCEPT numbers positives
  IPMT rate natural periods money [money] [type]
  IRR payments
  ISBLANK anything|reference
  ISERR anything
  ISERROR anything
  ISEVEN number
  ISLOGICAL anything|reference
  ISNA anything
  ISNONTEXT anything|reference
  ISNUMBER anything|reference
  ISODD number
  ISOWEEKNUM day
  ISPMT rate natural periods money
  ISREF reference|number
  ISTEXT anything|reference
  KURT numbers|positives …
  LARGE numbers natural
  LCM count|wholes …
  LEFT long [index]
  LEN long|number
  LINEST numbers positives
  LN positive
  LOG positive [above1]
  LOG10 positive
  LOGEST positives wholes
  LOGNORM.DIST positive number positive cumulative
  LOGNORMDIST positive number positive
  LOGNORM.INV chance unit positive
  LOGINV chance unit positive
  LOOKUP sortedKey ascending numbers
  LOWER long
  MATCH sortedKey ascending [type]
  MAX numbers|mixed|number …
  MAXA numbers|mixed|number …
  MAXIFS numbers wholes criterion
  MDETERM square
  MEDIAN numbers|mixed …
  MID long small count
  MIN numbers|mixed|number …
  MINA numbers|mixed|number …
  MINIFS numbers wholes criterion
  MINUTE moment
  MINVERSE square
  MIRR payments rate rate
  MMULT twoByThree threeByTwo
  MOD number|tenth number|tenth
  MODE wholes
  MODE.SNGL wholes
  MONTH day|moment
  MROUND positive|number positive|number
  MULTINOMIAL index …
  N anything|reference
  NA
  NEGBINOM.DIST count natural chance cumulative
  NEGBINOMDIST natural natural chance
  NETWORKDAYS nearDay nearDay [days]
  NETWORKDAYS.INTL nearDay nearDay [weekend] [days]
  NOMINAL rate natural
  NORM.DIST number number positive cumulative
  NORMDIST number number positive cumulative
  NORM.INV chance number positive
  NORMINV chance number positive
  NORM.S.DIST number cumulative
  NORMSDIST number
  NORM.S.INV chance
  NORMSINV chance
  NOT truth|number
  NPER rate money money [money] [type]
  NPV rate payments
  NUMBERVALUE plainNumber point comma
  OCT2BIN octal [places]
  OCT2DEC octal
  OCT2HEX octal [places]
  ODD number
  OR truth|truths …
  PDURATION rate positive positive
  PERCENTILE numbers chance
  PERCENTILE.EXC numbers chance
  PERCENTILE.INC numbers chance
  PERCENTRANK numbers number
  PERCENTRANK.INC ascending sortedKey
  PERCENTRANK.EXC ascending sortedKey
  PERMUT count count
  PERMUTATIONA count count
  PHI number
  PI
  PMT rate periods money [money] [type]
  POISSON.DIST count positive cumulative
  POISSON count positive cumulative
  POWER positive tenth|small
  PPMT rate natural periods money [money] [type]
  PRODUCT wholes|numbers|number …
  PROPER long
  PV rate periods money [money] [type]
  QUARTILE numbers one
  QUARTILE.EXC numbers natural
  QUARTILE.INC numbers one
  QUOTIENT number|tenth number|tenth
  RADIANS angle
  RANK index wholes [type]
  RANK.EQ count wholes [type]
  RANK.AVG count wholes [type]
  RATE periods money money [money] [type]
  REPLACE long natural index word
  REPT word index
  RIGHT long [index]
  ROMAN natural [one]
  ROUND number digits
  ROUNDDOWN number [digits]
  ROUNDUP number digits
  ROW reference|numbers
  ROWS block
  RRI periods positive positive
  RSQ numbers positives
  SEARCH pattern long [natural]
  SEC angle
  SECH angle
  SECOND moment
  SERIESSUM unit small small wholes
  SIGN number
  SIN angle
  SINH angle
  SKEW numbers|positives …
  SKEW.P numbers|positives …
  SLN large positive natural
  SLOPE numbers positives
  SMALL numbers natural
  SQRT number
  SQRTPI number
  STANDARDIZE number number positive
  STDEV numbers|mixed …
  STDEV.S numbers|mixed …
  STDEVP numbers|mixed …
  STDEV.P numbers|mixed …
  STDEVA numbers|mixed …
  STDEVPA numbers|mixed …
  STEYX numbers positives
  SUBSTITUTE long piece word [natural]
  SUBTOTAL subtotal numbers|mixed
  SUM numbers|mixed|number …
  SUMIF numbers|wholes criterion [positives]
  SUMIFS numbers wholes criterion texts textCriterion
  SUMPRODUCT numbers positives
  SUMSQ numbers|mixed|number …
  SUMX2MY2 numbers positives
  SUMX2PY2 numbers positives
  SUMXMY2 numbers positives
  SWITCH index number word number number [word]
  SYD large positive natural natural
  T anything|reference
  T.DIST number natural cumulative
  T.DIST.2T positive natural
  T.DIST.RT number natural
  TDIST positive natural tails
  T.INV chance natural
  T.INV.2T chance natural
  TINV chance natural
  T.TEST numbers positives tails kindOfTest
  TTEST numbers positives tails kindOfTest
  TAN angle
  TANH angle
  TBILLEQ settled matured rate
  TBILLPRICE settled matured rate
  TBILLYIELD settled matured positive
  TEXT formatted|formattedMoment
  TEXTJOIN piece truth word|texts …
  TIME index small count
  TIMEVALUE timeText
  TRANSPOSE twoByThree
  TREND numbers positives otherPositives
  TRIM long
  TRIMMEAN numbers chance
  TRUE
  TRUNC number [digits]
  TYPE anything
  UNICHAR character
  UNICODE word
  UPPER long
  VALUE numberText|dateText|timeText
  VAR numbers|mixed …
  VAR.S numbers|mixed …
  VARP numbers|mixed …
  VAR.P numbers|mixed …
  VARA numbers|mixed …
  VARPA numbers|mixed …
  VLOOKUP sortedKey table index [truth]
  WEEKDAY day [weekType]
  WEEKNUM day [weekStart]
  WEIBULL.DIST positive positive positive cumulative
  WEIBULL positive positive positive cumulative
  WORKDAY nearDay small [days]
  WORKDAY.INTL nearDay small [weekend] [days]
  XIRR payments paymentDays
  XNPV rate payments paymentDays
  XOR truth|truths …
  YEAR day|moment
  YEARFRAC day day [basis]
  Z.TEST numbers number [positive]
  ZTEST numbers number [positive]
  AGGREGATE aggregate aggregateOption numbers
  CONVERT number unitFrom unitTo
`
    .trim()
    .split('\n')
    .map((line) => {
      const [name = '', ...args] = line.trim().split(/\s+/);
      return [name, args];
    }),
);

/** Functions of which one cell is asked: the rows and columns that there are. */
export const arrays: Readonly<Record<string, readonly [number, number]>> = {
  MMULT: [2, 2],
  TRANSPOSE: [3, 2],
  FREQUENCY: [4, 1],
  LINEST: [1, 2],
  LOGEST: [1, 2],
  TREND: [3, 1],
  GROWTH: [3, 1],
  MINVERSE: [1, 1],
};

/** Functions of which LibreOffice alone refuses a blank cell, or takes it for an empty text. */
const blankIsNone = /^(?:IM.*|BIN2.*|OCT2.*|HEX2.*|ISEVEN|ISODD|CODE|[HV]LOOKUP|ROMAN|VALUE|LOOKUP|MATCH)$/;

/** Functions of days, of which those before 1 March 1900 are counted in two ways. */
const takesDays = /DAY|DATE|WEEK|MONTH|YEAR|^(?:HOUR|MINUTE|SECOND|TEXT)$/;

/** What stands in the place of an argument now and then; never in that of a range, which some programs insist on. */
const oddities = ['"text"', 'Data!$J$4', '0', '-1', 'NA()', '""'];

const placed = (name: string, call: string, draw: Draw): string => {
  if (name === 'INDEX') return `SUM(${call})`;
  const size = arrays[name];
  if (size === undefined) return call;
  const at = size.map((most) => 1 + Math.floor(draw() * most));
  return `INDEX(${call},${at.join(',')})`;
};

export interface StandardCall {
  readonly name: string;
  readonly formula: string;
  /** Whether an argument is of another kind than the function takes. */
  readonly odd: boolean;
}

/** A call of a function at random. */
export function standardCall(name: string, draw: Draw): StandardCall {
  const shape = drawnShape(draw);
  const args: string[] = [];
  const declared = callKinds[name] ?? [];
  const argument = (word: string): string => {
    const choices = word.replace(/^\[|\]$/g, '').split('|');
    return drawn(choices[Math.floor(draw() * choices.length)] ?? '', draw, shape);
  };
  for (const [index, word] of declared.entries()) {
    if (word === '…') {
      const repeated = declared[index - 1] ?? '';
      for (let times = Math.floor(draw() * 3); times > 0; times -= 1) args.push(argument(repeated));
    } else if (word.startsWith('[') && draw() < 0.4) break;
    else args.push(argument(word));
  }
  const at = Math.floor(draw() * args.length);
  const odd =
    draw() < 0.15 &&
    !/^(?:NUMBERVALUE|[HV]LOOKUP|MATCH)$/.test(name) &&
    args[at] !== undefined &&
    !args[at].includes(':');
  if (odd) {
    const choices = oddities.filter(
      (text) =>
        !(blankIsNone.test(name) && text.includes('!')) && !(takesDays.test(name) && /^(?:0|-1|Data.*)$/.test(text)),
    );
    args[at] = choices[Math.floor(draw() * choices.length)] ?? '0';
  }
  return { name, formula: placed(name, `${name}(${args.join(',')})`, draw), odd };
}

/** Operators between arguments of any kind. */
export function operatorCall(draw: Draw): StandardCall {
  const kinds = [
    'number',
    'digits',
    'anything',
    'reference',
    'word',
    'numberText',
    'chance',
    'tenth',
    'tenth',
    'tenthSum',
  ];
  const one = (): string => drawn(kinds[Math.floor(draw() * kinds.length)] ?? '', draw, drawnShape(draw));
  const operators = ['+', '-', '*', '/', '^', '&', '=', '<>', '<', '>', '<=', '>='];
  const operator = operators[Math.floor(draw() * operators.length)] ?? '+';
  const [left, right] = [one(), one()];
  const sign = draw() < 0.2 ? '-' : '';
  return { name: 'operators', formula: `${sign}${left}${operator}${right}`, odd: false };
}
