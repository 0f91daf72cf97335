/** Functions of statistics, a line each: signature, colon, what it does. */

export const statistics = `
AVEDEV(number, …): mean distance of numbers from their mean
AVERAGE(number, …): mean of numbers
AVERAGEA(value, …): mean, texts counting 0 and truths 0 or 1
AVERAGEIF(range, criterion, [averaged]): mean of the cells that meet a condition
AVERAGEIFS(averaged, range, criterion, …): mean of the cells that meet several conditions
CORREL(first, second): how closely two lists go together, from -1 to 1
COUNT(value, …): how many numbers there are
COUNTA(value, …): how many cells are not blank
COUNTBLANK(range, …): how many cells are blank
COUNTIF(range, criterion): how many cells meet a condition
COUNTIFS(range, criterion, …): how many rows meet several conditions
COVARIANCE.P(first, second): covariance of two whole populations
COVARIANCE.S(first, second): covariance estimated from two samples
COVAR(first, second): older name of COVARIANCE.P
DEVSQ(number, …): sum of the squared distances from the mean
FISHER(number): Fisher's transformation of a correlation
FISHERINV(number): inverse of FISHER
FORECAST(x, y values, x values): older name of FORECAST.LINEAR
FORECAST.LINEAR(x, y values, x values): y at x on the straight line through points
FREQUENCY(values, bounds): how many values fall up to each bound, and above the last
GEOMEAN(number, …): geometric mean
GROWTH(y values, [x values], [new x values], [constant]): values on the exponential curve through points
HARMEAN(number, …): harmonic mean
INTERCEPT(y values, x values): where the straight line through points crosses x = 0
KURT(number, …): how heavy the tails of a sample are
LARGE(range, place): the largest number but so many
LINEST(y values, [x values], [constant], [statistics]): straight line through points: slopes and intercept
LOGEST(y values, [x values], [constant], [statistics]): exponential curve through points
MAX(number, …): largest number
MAXA(value, …): largest, texts counting 0 and truths 0 or 1
MAXIFS(values, range, criterion, …): largest of the cells that meet conditions
MEDIAN(number, …): number in the middle
MIN(number, …): smallest number
MINA(value, …): smallest, texts counting 0 and truths 0 or 1
MINIFS(values, range, criterion, …): smallest of the cells that meet conditions
MODE(number, …): older name of MODE.SNGL
MODE.SNGL(number, …): number that comes most often
PEARSON(first, second): the same as CORREL
PERCENTILE(range, share): older name of PERCENTILE.INC
PERCENTILE.EXC(range, share): number below which a share lies, ends left out
PERCENTILE.INC(range, share): number below which a share lies
PERCENTRANK(range, x, [digits]): older name of PERCENTRANK.INC
PERCENTRANK.EXC(range, x, [digits]): share of the numbers below one, ends left out
PERCENTRANK.INC(range, x, [digits]): share of the numbers below one
QUARTILE(range, quarter): older name of QUARTILE.INC
QUARTILE.EXC(range, quarter): number below which so many quarters lie, ends left out
QUARTILE.INC(range, quarter): number below which so many quarters lie
RANK(number, range, [ascending]): older name of RANK.EQ
RANK.AVG(number, range, [ascending]): place of a number among others, equal ones sharing the mean place
RANK.EQ(number, range, [ascending]): place of a number among others, equal ones the first place
RSQ(y values, x values): share of the spread that a straight line explains
SKEW(number, …): how lopsided a sample is
SKEW.P(number, …): how lopsided a whole population is
SLOPE(y values, x values): slope of the straight line through points
SMALL(range, place): the smallest number but so many
STANDARDIZE(x, mean, deviation): distance from the mean in standard deviations
STDEV(number, …): older name of STDEV.S
STDEV.P(number, …): standard deviation of a whole population
STDEV.S(number, …): standard deviation estimated from a sample
STDEVA(value, …): STDEV.S, texts counting 0 and truths 0 or 1
STDEVP(number, …): older name of STDEV.P
STDEVPA(value, …): STDEV.P, texts counting 0 and truths 0 or 1
STEYX(y values, x values): standard error of y on a straight line
TREND(y values, [x values], [new x values], [constant]): values on the straight line through points
TRIMMEAN(range, share): mean without a share of the smallest and largest
VAR(number, …): older name of VAR.S
VAR.P(number, …): variance of a whole population
VAR.S(number, …): variance estimated from a sample
VARA(value, …): VAR.S, texts counting 0 and truths 0 or 1
VARP(number, …): older name of VAR.P
VARPA(value, …): VAR.P, texts counting 0 and truths 0 or 1
`;
