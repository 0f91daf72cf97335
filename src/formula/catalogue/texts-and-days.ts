/** Functions of texts, days and conditions, a line each: signature, colon, what it does. */

export const texts = `
CHAR(code): character of a code from 1 to 255
CLEAN(text): text without characters that don't print
CODE(text): code of the first character
CONCAT(text, …): texts and ranges of texts, one after the other
CONCATENATE(text, …): texts one after the other, as text&text
EXACT(text, other): whether two texts are the same, capitals too
FIND(sought, text, [start]): place of a text within another, capital letters differ from small ones
FIXED(number, [digits], [plain]): number as a text with so many decimal places
HYPERLINK(link, [text]): link to open
LEFT(text, [count]): first characters
LEN(text): how many characters a text has
LOWER(text): small letters
MID(text, start, count): characters from a place on
NUMBERVALUE(text, [decimal], [group]): number from a text with other marks for decimals and groups
PROPER(text): a capital at the start of every word
REPLACE(text, start, count, new): characters from a place on, replaced
REPT(text, count): text repeated
RIGHT(text, [count]): last characters
SEARCH(sought, text, [start]): place of a text or pattern within another, capitals or not
SUBSTITUTE(text, old, new, [which]): a text replaced everywhere, or one time of it
T(value): a text; of any other value an empty text
TEXT(value, format): number as a text in a format, as "0.00", "#,##0" or "yyyy-mm-dd"
TEXTAFTER(text, delimiter, [which], [mode], [end], [missing]): the text after a delimiter
TEXTBEFORE(text, delimiter, [which], [mode], [end], [missing]): the text before a delimiter
TEXTJOIN(delimiter, skip empty, text, …): texts and ranges with a delimiter between
TRIM(text): text without blanks at its ends and doubled ones
UNICHAR(code): character of a Unicode number
UNICODE(text): Unicode number of the first character
UPPER(text): capital letters
VALUE(text): number that a text means
`;

export const days = `
DATE(year, month, day): day as a number
DATEDIF(start, end, unit): time between two days in "d", "m" or "y"; "ym", "md", "yd" what is left over
DATEVALUE(text): day that a text means, written as 2026-02-01
DAY(day): day of the month
DAYS(end, start): days between two days
DAYS360(start, end, [european]): days between, all months having 30
EDATE(start, months): same day so many months on
EOMONTH(start, months): last day of the month so many months on
HOUR(time): hour of a time
ISOWEEKNUM(day): week of the year by ISO 8601
MINUTE(time): minute of a time
MONTH(day): month of a day
NETWORKDAYS(start, end, [holidays]): working days from one day to another, both counted
NETWORKDAYS.INTL(start, end, [weekend], [holidays]): working days with other weekends
NOW(): day and time
SECOND(time): second of a time
TIME(hour, minute, second): time as part of a day
TIMEVALUE(text): time that a text means, written as 7:15 or 19:15:30
TODAY(): day
WEEKDAY(day, [type]): day of the week, 1 for Sunday unless another type is given
WEEKNUM(day, [type]): week of the year
WORKDAY(start, days, [holidays]): day so many working days on
WORKDAY.INTL(start, days, [weekend], [holidays]): the same with other weekends
YEAR(day): year of a day
YEARFRAC(start, end, [basis]): time between two days in years
`;

export const conditions = `
AND(condition, …): TRUE when all are
FALSE(): FALSE
IF(condition, then, [otherwise]): one of two values
IFERROR(value, instead): another value in place of an error
IFNA(value, instead): another value in place of #N/A
IFS(condition, value, …): value of the first condition that holds
LET(name, value, …, result): names for parts of a formula, and what is computed with them
NOT(condition): TRUE for FALSE, FALSE for TRUE
OR(condition, …): TRUE when one is
SWITCH(value, case, result, …): result of the case that equals a value; one more at the end for all others
TRUE(): TRUE
XOR(condition, …): TRUE when an odd number of them is
`;

export const kinds = `
ERROR.TYPE(value): number of an error: 2 #DIV/0!, 3 #VALUE!, 4 #REF!, 5 #NAME?, 6 #NUM!, 7 #N/A
FORMULATEXT(cell): formula of a cell as a text
ISBLANK(value): whether a cell is blank
ISERR(value): whether it is an error other than #N/A
ISERROR(value): whether it is an error
ISEVEN(number): whether a whole number is even
ISFORMULA(cell): whether a cell holds a formula
ISLOGICAL(value): whether it is TRUE or FALSE
ISNA(value): whether it is #N/A
ISNONTEXT(value): whether it is anything but a text
ISNUMBER(value): whether it is a number
ISODD(number): whether a whole number is odd
ISREF(value): whether it is a reference
ISTEXT(value): whether it is a text
N(value): a number; TRUE is 1, a text 0
NA(): #N/A
SHEET([name]): number of a sheet
SHEETS([range]): how many sheets there are
TYPE(value): 1 number, 2 text, 4 truth, 16 error, 64 range
`;
