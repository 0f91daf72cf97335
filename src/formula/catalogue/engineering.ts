/** Functions of engineers and bookkeepers, a line each: signature, colon, what it does. */

export const engineering = `
BESSELI(x, order): modified Bessel function I
BESSELJ(x, order): Bessel function J
BESSELK(x, order): modified Bessel function K
BESSELY(x, order): Bessel function Y
BIN2DEC(number): number written with binary digits
BIN2HEX(number, [places]): binary digits as hexadecimal ones
BIN2OCT(number, [places]): binary digits as octal ones
BITAND(first, second): bits that both numbers have
BITLSHIFT(number, bits): bits moved to the left
BITOR(first, second): bits that one of two numbers has
BITRSHIFT(number, bits): bits moved to the right
BITXOR(first, second): bits that only one of two numbers has
COMPLEX(real, imaginary, [suffix]): complex number
CONVERT(number, from, to): number in another unit: "in" to "mm", "lbf" to "N", "HP" to "kW"
DEC2BIN(number, [places]): number with binary digits
DEC2HEX(number, [places]): number with hexadecimal digits
DEC2OCT(number, [places]): number with octal digits
DELTA(first, [second]): 1 when two numbers are the same
ERF(from, [to]): error function
ERF.PRECISE(x): error function
ERFC(x): 1 less the error function
ERFC.PRECISE(x): 1 less the error function
HEX2BIN(number, [places]): hexadecimal digits as binary ones
HEX2DEC(number): number written with hexadecimal digits
HEX2OCT(number, [places]): hexadecimal digits as octal ones
IMABS(number): size of a complex number
IMAGINARY(number): imaginary part
IMARGUMENT(number): angle of a complex number
IMCONJUGATE(number): complex number with its imaginary part turned
IMCOS(number): cosine of a complex number
IMCOSH(number): its hyperbolic cosine
IMCOT(number): its cotangent
IMCSC(number): 1 over its sine
IMCSCH(number): 1 over its hyperbolic sine
IMDIV(number, divisor): quotient of complex numbers
IMEXP(number): e to a complex power
IMLN(number): natural logarithm
IMLOG10(number): logarithm to the base 10
IMLOG2(number): logarithm to the base 2
IMPOWER(number, power): complex number to a power
IMPRODUCT(number, …): product of complex numbers
IMREAL(number): real part
IMSEC(number): 1 over its cosine
IMSECH(number): 1 over its hyperbolic cosine
IMSIN(number): sine of a complex number
IMSINH(number): its hyperbolic sine
IMSQRT(number): square root of a complex number
IMSUB(first, second): difference of complex numbers
IMSUM(number, …): sum of complex numbers
IMTAN(number): tangent of a complex number
OCT2BIN(number, [places]): octal digits as binary ones
OCT2DEC(number): number written with octal digits
OCT2HEX(number, [places]): octal digits as hexadecimal ones
`;

export const money = `
CUMIPMT(rate, periods, present, first, last, type): interest paid from one period to another
CUMPRINC(rate, periods, present, first, last, type): principal paid from one period to another
DB(cost, salvage, life, period, [months]): depreciation by a fixed share of what is left
DDB(cost, salvage, life, period, [factor]): depreciation by a multiple of the straight share
DOLLARDE(price, fraction): price in eighths or the like as a decimal number
DOLLARFR(price, fraction): decimal price in eighths or the like
EFFECT(nominal, periods): rate of a year, interest added so often
FV(rate, periods, payment, [present], [type]): what payments have grown to
FVSCHEDULE(principal, rates): what a sum grows to at changing rates
IPMT(rate, period, periods, present, [future], [type]): interest within a payment
IRR(payments, [guess]): rate at which payments come to nothing
ISPMT(rate, period, periods, present): interest of a period, principal paid in equal parts
MIRR(payments, rate, reinvested): rate, what comes in being invested at another
NOMINAL(effective, periods): yearly rate of which interest is added so often
NPER(rate, payment, present, [future], [type]): how many payments
NPV(rate, payment, …): present value of payments
PDURATION(rate, present, future): periods until a sum has grown so much
PMT(rate, periods, present, [future], [type]): payment of a loan
PPMT(rate, period, periods, present, [future], [type]): principal within a payment
PV(rate, periods, payment, [future], [type]): present value of equal payments
RATE(periods, payment, present, [future], [type], [guess]): rate of equal payments
RRI(periods, present, future): rate by which a sum has grown
SLN(cost, salvage, life): depreciation by equal parts
SYD(cost, salvage, life, period): depreciation by the years that are left
TBILLEQ(settlement, maturity, discount): yield of a treasury bill, as of a bond
TBILLPRICE(settlement, maturity, discount): price of a treasury bill
TBILLYIELD(settlement, maturity, price): yield of a treasury bill
XIRR(payments, days, [guess]): rate at which payments of any days come to nothing
XNPV(rate, payments, days): present value of payments of any days
`;
