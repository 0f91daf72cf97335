import { author, version } from '../../package.json';

/** What files that are made here name as their maker. */
export const programName = 'Skewbook';

/**
 * Whose the program is and under what licence, in the form that the GNU GPL, version 3, asks of a program that talks
 * with its user (section 0, "Appropriate Legal Notices", and 5(d)).
 */
export const legalNotice: readonly string[] = [
  `${programName} ${version}`,
  `Copyright (C) 2026 ${author}`,
  'License GPLv3: GNU GPL version 3 <https://www.gnu.org/licenses/gpl-3.0.html>',
  'This is free software: you are free to change it and to hand it on under that license.',
  'There is NO WARRANTY, to the extent permitted by law.',
];
