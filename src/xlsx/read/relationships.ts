import { saveAgain, UnreadableFile } from './unreadable-file.ts';
import { readPart } from './xml-part.ts';
import type { BookParts } from './zip-parts.ts';

export interface Relationship {
  /** Last word of its type: the same in the transitional and the strict form of the standard. */
  readonly type: string;
  /** The part it points to, from the archive's root; undefined when it points outside the file. */
  readonly target: string | undefined;
}

/** A target relative to the folder of the part that names it, or absolute. Source: RFC 3986, 5.2.4. */
function resolved(folder: readonly string[], target: string): string {
  const plain = target.replaceAll('\\', '/');
  const steps = plain.startsWith('/') ? [] : [...folder];
  for (const step of plain.split('/')) {
    if (step === '..') steps.pop();
    else if (step !== '.' && step !== '') steps.push(step);
  }
  return steps.join('/');
}

function percentDecoded(path: string): string {
  try {
    return decodeURIComponent(path);
  } catch {
    return path;
  }
}

/**
 * Where a part's references lead, by their ids; an empty path is the file itself.
 *
 * A part without references has no such part beside it, which is no fault. Source: ECMA-376 Part 2, 6.5.
 */
export function relationships(parts: BookParts, path: string): ReadonlyMap<string, Relationship> {
  const folder = path.split('/').slice(0, -1);
  const name = path.slice(path.lastIndexOf('/') + 1);
  const own = parts.find([...folder, '_rels', `${name}.rels`].join('/'));
  const found = new Map<string, Relationship>();
  if (own === undefined) return found;
  readPart(parts, own, {
    open(element, { Id, Type, Target, TargetMode }, depth) {
      if (depth !== 2 || element !== 'Relationship' || Id === undefined || Type === undefined || Target === undefined)
        return;
      const type = Type.slice(Type.lastIndexOf('/') + 1);
      const at = resolved(folder, Target);
      found.set(Id, { type, target: TargetMode === 'External' ? undefined : (parts.find(at) ?? percentDecoded(at)) });
      if (found.size > parts.limits.parts)
        throw new UnreadableFile(
          'too many parts',
          `Part ${own} names more than ${parts.limits.parts} parts. ${saveAgain}`,
        );
    },
  });
  return found;
}
