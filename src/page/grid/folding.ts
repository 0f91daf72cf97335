import { beltGroups } from '../../../sheets/belts/groups.ts';
import { belts } from '../../../sheets/belts/index.ts';

/** Which columns of a sheet are folded away with their groups. */
export const foldedHeaders = (sheet: string, folded: ReadonlySet<string>): ReadonlySet<string> =>
  new Set(
    sheet === belts.name ? beltGroups.filter(({ name }) => folded.has(name)).flatMap(({ headers }) => headers) : [],
  );

/** The folded groups without that of a column. */
export function unfolded(sheet: string, header: string, folded: ReadonlySet<string>): ReadonlySet<string> {
  const group =
    sheet === belts.name ? beltGroups.find(({ headers }) => headers.some((own) => own === header)) : undefined;
  return group === undefined ? folded : new Set([...folded].filter((name) => name !== group.name));
}
