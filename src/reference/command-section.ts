import { type CommandWords, commandWords, optionText, optionUsage, program } from './commands.ts';
import type { Option } from './list-reading.ts';
import type { Section } from './entry.ts';

const key = (option: Option): string => `${option.name} ${option.doc}`;

/** Options that several commands take in the same words, with the names of the commands. */
const shared: ReadonlyMap<string, { readonly option: Option; readonly of: readonly string[] }> = (() => {
  const found = new Map<string, { readonly option: Option; readonly of: readonly string[] }>();
  for (const { name, options } of commandWords)
    for (const option of options) found.set(key(option), { option, of: [...(found.get(key(option))?.of ?? []), name] });
  return new Map([...found].filter(([, { of }]) => of.length > 1));
})();

const own = ({ options }: CommandWords): readonly Option[] => options.filter((option) => !shared.has(key(option)));

/** The command line: every command with what it does, its own options, and the options that several take. */
export const commandSection = (): Section => ({
  about: [
    `Type \`${program} COMMAND\`. Your list is only read. Errors go to standard error, with the name of the file, ` +
      'and the exit code is 2. Exit code 3 is a fault of the program itself: please report it.',
  ],
  entry: 'command',
  layout: 'blocks',
  groups: [
    {
      title: 'Commands',
      entries: commandWords.map((command) => {
        const common = command.options.filter((option) => shared.has(key(option)));
        return {
          name: `\`${[command.name, ...command.words].join(' ')}\``,
          says: command.summary,
          facts: [
            ...(command.notes.length === 0 ? [] : [{ label: 'notes', text: command.notes.join(' ') }]),
            ...own(command).map((option) => ({ label: `\`${optionUsage(option)}\``, text: optionText(option) })),
            ...(common.length === 0
              ? []
              : [{ label: 'options below', text: common.map(({ name }) => `\`--${name}\``).join(', ') }]),
          ],
        };
      }),
    },
    {
      title: 'Options of several commands',
      entries: [...shared.values()].map(({ option, of }) => ({
        name: `\`${optionUsage(option)}\``,
        says: optionText(option),
        facts: [{ label: 'of', text: of.join(', ') }],
      })),
    },
  ],
});
