/** Functions that look up, sort and cut ranges, a line each: signature, colon, what it does. */

export const lookingUp = `
ADDRESS(row, column, [kind], [letters], [sheet]): address of a cell as a text
CHOOSE(place, value, …): value at a place of a list
COLUMN([cell]): number of a column
COLUMNS(range): how many columns a range has
HLOOKUP(value, range, row, [sorted]): value found in the first row, and the cell so many rows below
INDEX(range, row, [column]): cell of a range; row or column 0 gives all of them
LOOKUP(value, range, [results]): last of ascending values that is no larger, and the result beside it
MATCH(value, range, [type]): place of a value: 0 the same, 1 the last not larger, -1 the last not smaller
OFFSET(cell, rows, columns, [height], [width]): cells so many rows and columns away; the numbers are written out
ROW([cell]): number of a row
ROWS(range): how many rows a range has
VLOOKUP(value, range, column, [sorted]): value found in the first column, and the cell so many columns on
XLOOKUP(value, searched, results, [missing], [mode], [direction]): value found in one range, result of another
XMATCH(value, range, [mode], [direction]): place of a value: 0 the same, -1 or the next smaller, 1 or the next larger
`;

export const ranges = `
CHOOSECOLS(range, column, …): some columns of a range
CHOOSEROWS(range, row, …): some rows of a range
DROP(range, [rows], [columns]): range without its first rows and columns, or last ones for negative counts
FILTER(range, condition, …): rows that meet conditions
HSTACK(range, …): ranges side by side
SORT(range, [column], [order], [by columns]): rows sorted by a column; order -1 the largest first
SORTBY(range, by, [order], …): rows sorted by other ranges
TAKE(range, [rows], [columns]): first rows and columns, or last ones for negative counts
TOCOL(range, [leave out], [by columns]): cells one below the other; 1 leaves out blanks, 2 errors, 3 both
TOROW(range, [leave out], [by columns]): cells side by side
UNIQUE(range, [by columns], [once]): each row once
VSTACK(range, …): ranges one below the other
WRAPCOLS(range, count, [pad]): a list in columns of so many cells
WRAPROWS(range, count, [pad]): a list in rows of so many cells
`;

export const databases = `
DAVERAGE(list, field, criteria): mean of a field where records meet criteria
DCOUNT(list, field, criteria): how many numbers
DCOUNTA(list, field, criteria): how many cells that are not blank
DGET(list, field, criteria): the only one
DMAX(list, field, criteria): largest
DMIN(list, field, criteria): smallest
DPRODUCT(list, field, criteria): product
DSTDEV(list, field, criteria): standard deviation, estimated from a sample
DSTDEVP(list, field, criteria): standard deviation of all
DSUM(list, field, criteria): sum
DVAR(list, field, criteria): variance, estimated from a sample
DVARP(list, field, criteria): variance of all
`;
