/** Functions of distributions, a line each: signature, colon, what it does. */

export const distributions = `
BETA.DIST(x, alpha, beta, cumulative, [lower], [upper]): beta distribution
BETA.INV(probability, alpha, beta, [lower], [upper]): x of a probability of the beta distribution
BETADIST(x, alpha, beta, [lower], [upper]): beta distribution, cumulative
BETAINV(probability, alpha, beta, [lower], [upper]): older name of BETA.INV
BINOM.DIST(successes, trials, probability, cumulative): chance of so many successes
BINOM.INV(trials, probability, alpha): fewest successes whose chance reaches alpha
BINOMDIST(successes, trials, probability, cumulative): older name of BINOM.DIST
CHIDIST(x, degrees): older name of CHISQ.DIST.RT
CHIINV(probability, degrees): older name of CHISQ.INV.RT
CHISQ.DIST(x, degrees, cumulative): chi-squared distribution
CHISQ.DIST.RT(x, degrees): chance of a larger chi-squared
CHISQ.INV(probability, degrees): chi-squared of a probability
CHISQ.INV.RT(probability, degrees): chi-squared that is exceeded with a probability
CHISQ.TEST(actual, expected): chance that counts differ so from expected ones
CHITEST(actual, expected): older name of CHISQ.TEST
CONFIDENCE(alpha, deviation, size): older name of CONFIDENCE.NORM
CONFIDENCE.NORM(alpha, deviation, size): half width of a mean's confidence interval
CONFIDENCE.T(alpha, deviation, size): the same by Student's t, for a small sample
CRITBINOM(trials, probability, alpha): older name of BINOM.INV
EXPON.DIST(x, rate, cumulative): exponential distribution
EXPONDIST(x, rate, cumulative): older name of EXPON.DIST
F.DIST(x, degrees, other degrees, cumulative): F distribution
F.DIST.RT(x, degrees, other degrees): chance of a larger F
F.INV(probability, degrees, other degrees): F of a probability
F.INV.RT(probability, degrees, other degrees): F that is exceeded with a probability
F.TEST(first, second): chance that two samples differ so in spread
FDIST(x, degrees, other degrees): older name of F.DIST.RT
FINV(probability, degrees, other degrees): older name of F.INV.RT
FTEST(first, second): older name of F.TEST
GAMMA(number): gamma function
GAMMA.DIST(x, alpha, beta, cumulative): gamma distribution
GAMMA.INV(probability, alpha, beta): x of a probability of the gamma distribution
GAMMADIST(x, alpha, beta, cumulative): older name of GAMMA.DIST
GAMMAINV(probability, alpha, beta): older name of GAMMA.INV
GAMMALN(number): natural logarithm of the gamma function
GAMMALN.PRECISE(number): the same as GAMMALN
GAUSS(z): chance of the normal distribution between 0 and z
HYPGEOM.DIST(hits, sample, marked, all, cumulative): chance of so many marked in a sample
HYPGEOMDIST(hits, sample, marked, all): chance of exactly so many marked in a sample
LOGINV(probability, mean, deviation): older name of LOGNORM.INV
LOGNORM.DIST(x, mean, deviation, cumulative): distribution of which the logarithm is normal
LOGNORM.INV(probability, mean, deviation): x of a probability of the lognormal distribution
LOGNORMDIST(x, mean, deviation): lognormal distribution, cumulative
NEGBINOM.DIST(failures, successes, probability, cumulative): chance of so many failures before the successes
NEGBINOMDIST(failures, successes, probability): chance of exactly so many failures before the successes
NORM.DIST(x, mean, deviation, cumulative): normal distribution
NORM.INV(probability, mean, deviation): x of a probability of the normal distribution
NORM.S.DIST(z, cumulative): normal distribution with mean 0 and deviation 1
NORM.S.INV(probability): z of a probability
NORMDIST(x, mean, deviation, cumulative): older name of NORM.DIST
NORMINV(probability, mean, deviation): older name of NORM.INV
NORMSDIST(z): normal distribution with mean 0 and deviation 1, cumulative
NORMSINV(probability): older name of NORM.S.INV
PHI(z): density of the normal distribution
POISSON(count, mean, cumulative): older name of POISSON.DIST
POISSON.DIST(count, mean, cumulative): chance of so many events where so many are expected
T.DIST(t, degrees, cumulative): Student's t distribution
T.DIST.2T(t, degrees): chance of a t further from 0, either way
T.DIST.RT(t, degrees): chance of a larger t
T.INV(probability, degrees): t of a probability
T.INV.2T(probability, degrees): t that is exceeded either way with a probability
T.TEST(first, second, tails, type): chance that two samples differ so in their mean
TDIST(t, degrees, tails): chance of a larger t, on one side or both
TINV(probability, degrees): older name of T.INV.2T
TTEST(first, second, tails, type): older name of T.TEST
WEIBULL(x, shape, scale, cumulative): older name of WEIBULL.DIST
WEIBULL.DIST(x, shape, scale, cumulative): Weibull distribution, as of times to failure
Z.TEST(range, x, [deviation]): chance that a sample's mean is so much larger
ZTEST(range, x, [deviation]): older name of Z.TEST
`;
