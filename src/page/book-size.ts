/** Records that a sheet of the program's may have on the page: as many as `npm run bench page` measures. Ours. */
export const mostRecords = 100_000;
