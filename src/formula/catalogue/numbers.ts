/** Functions of numbers, a line each: signature, colon, what it does. */

export const numbers = `
ABS(number): size of a number, without its sign
CEILING(number, step): up to a multiple of a step, away from 0
CEILING.MATH(number, [step], [mode]): up to a multiple of a step; with a mode, negative numbers away from 0
CEILING.PRECISE(number, [step]): up to a multiple of a step, whatever the signs
COMBIN(number, chosen): ways to choose so many from a number of things
COMBINA(number, chosen): ways to choose so many, each as often as one likes
DECIMAL(text, base): number that a text means in a base from 2 to 36
BASE(number, base, [digits]): whole number written in a base from 2 to 36
EVEN(number): next even number, away from 0
EXP(number): e to the power of a number
FACT(number): product of the whole numbers up to one
FACTDOUBLE(number): product of every second whole number down from one
FLOOR(number, step): down to a multiple of a step, towards 0
FLOOR.MATH(number, [step], [mode]): down to a multiple of a step; with a mode, negative numbers towards 0
FLOOR.PRECISE(number, [step]): down to a multiple of a step, whatever the signs
GCD(number, …): largest whole number that divides all
INT(number): down to a whole number: -2.5 becomes -3
ISO.CEILING(number, [step]): up to a multiple of a step, whatever the signs
LCM(number, …): smallest whole number that all divide
LN(number): natural logarithm
LOG(number, [base]): logarithm, to the base 10 when none is given
LOG10(number): logarithm to the base 10
MOD(number, divisor): what a division leaves, with the sign of the divisor
MROUND(number, step): to the nearest multiple of a step
MULTINOMIAL(number, …): factorial of a sum over the product of factorials
ODD(number): next odd number, away from 0
PERMUT(number, chosen): ordered ways to choose so many from a number of things
PERMUTATIONA(number, chosen): ordered ways to choose so many, each as often as one likes
PI(): ratio of a circle's circumference to its diameter
POWER(number, power): number to a power, as number^power
PRODUCT(number, …): product of numbers
QUOTIENT(number, divisor): whole part of a division
RAND(): number by chance from 0 to 1, another at every change
RANDBETWEEN(lowest, highest): whole number by chance, another at every change
ROMAN(number, [form]): whole number in Roman numerals
ARABIC(text): number that Roman numerals mean
ROUND(number, [digits]): to so many decimal places, halves away from 0
ROUNDDOWN(number, [digits]): to so many decimal places, towards 0
ROUNDUP(number, [digits]): to so many decimal places, away from 0
SEQUENCE(rows, [columns], [start], [step]): numbers one after the other that fill cells
SERIESSUM(x, power, step, coefficients): sum of a power series
SIGN(number): 1, 0 or -1
SQRT(number): square root
SQRTPI(number): square root of a number times pi
SUBTOTAL(function, range, …): sum, mean or other figure of ranges, chosen by its number
SUM(number, …): sum of numbers
SUMIF(range, criterion, [summed]): sum of the cells that meet a condition
SUMIFS(summed, range, criterion, …): sum of the cells that meet several conditions
SUMPRODUCT(range, …): sum of the products of cells beside each other
SUMSQ(number, …): sum of squares
SUMX2MY2(x, y): sum of the differences of squares
SUMX2PY2(x, y): sum of the sums of squares
SUMXMY2(x, y): sum of the squares of differences
TRUNC(number, [digits]): cut off after so many decimal places
AGGREGATE(function, option, range, …): figure of ranges by its number; options 2, 3, 6 and 7 pass over errors
`;

export const angles = `
ACOS(number): angle of a cosine, in radians
ACOSH(number): inverse hyperbolic cosine
ACOT(number): angle of a cotangent, from 0 to pi
ACOTH(number): inverse hyperbolic cotangent
ASIN(number): angle of a sine, in radians
ASINH(number): inverse hyperbolic sine
ATAN(number): angle of a tangent, in radians
ATAN2(x, y): angle of a point from the x axis, in radians
ATANH(number): inverse hyperbolic tangent
COS(angle): cosine of an angle in radians
COSH(number): hyperbolic cosine
COT(angle): cotangent of an angle in radians
COTH(number): hyperbolic cotangent
CSC(angle): 1 over the sine
CSCH(number): 1 over the hyperbolic sine
DEGREES(angle): degrees of an angle in radians
RADIANS(angle): radians of an angle in degrees
SEC(angle): 1 over the cosine
SECH(number): 1 over the hyperbolic cosine
SIN(angle): sine of an angle in radians
SINH(number): hyperbolic sine
TAN(angle): tangent of an angle in radians
TANH(number): hyperbolic tangent
`;

export const matrices = `
MDETERM(matrix): determinant
MINVERSE(matrix): inverse of a matrix
MMULT(first, second): product of two matrices
TRANSPOSE(range): rows as columns
`;
