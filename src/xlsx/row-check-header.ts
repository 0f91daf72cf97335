/** The header of the column of a form that checks its rows: no column of a list, so it is left out when it is read. */
export const rowCheckHeader = 'Check of this row';
