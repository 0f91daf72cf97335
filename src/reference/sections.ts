import { checkSection } from './check-section.ts';
import { columnSection } from './column-section.ts';
import { commandSection } from './command-section.ts';
import { confirmSection } from './confirm-section.ts';
import type { Section } from './entry.ts';
import { findingsJsonSection } from './findings-json.ts';
import { functionSection } from './function-section.ts';
import { standardSection } from './standard-section.ts';
import { valueSection } from './value-section.ts';

interface NamedSection {
  readonly title: string;
  readonly section: () => Section;
  /** Its entries stand in another section too; picking them takes a second. */
  readonly picked?: true;
}

/** Sections that the declarations make by themselves, in their order; the page adds its keys. */
export const referenceSections: readonly NamedSection[] = [
  { title: 'Functions', section: functionSection },
  { title: 'Columns', section: columnSection },
  { title: 'Checks', section: checkSection },
  { title: 'Named values', section: valueSection },
  { title: 'Figures to confirm first', section: confirmSection, picked: true },
  { title: 'Standard functions', section: standardSection },
  { title: 'Command line', section: commandSection },
  { title: 'check --json', section: findingsJsonSection },
];
