import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import type { Plugin, Rolldown } from 'vite';

/**
 * The packages that end in a build, and the notices that go with it.
 *
 * `build.license` of Vite and rollup-plugin-license do most of this, but know nothing of workers, which are bundled
 * apart, and take one file of a package; licences of parts that a package took over lie in files of their own.
 */
interface BundledPackage {
  readonly name: string;
  readonly version: string;
  /** As its package.json has it; undefined when it says nothing, or that there is none. */
  readonly licence: string | undefined;
  readonly author: string | undefined;
  /** The whole text of each of its notices. */
  readonly notices: readonly string[];
  /** Paths of notices that are no text. */
  readonly documents: readonly string[];
}

/**
 * Whether anything says under which licence the package may be handed on. For tests: packages without a licence are
 * planted.
 */
export const isLicensed = ({ licence, notices }: BundledPackage): boolean =>
  licence !== undefined || notices.length > 0;

/** Modules that the build tools add themselves. */
const added: readonly (readonly [RegExp, string])[] = [
  [/^\0rolldown\//, 'rolldown'],
  [/^\0?_*vite[/-]/, 'vite'],
];

/**
 * The folder of the package that a module is of; undefined for a module of ours. For tests: paths of packages are
 * planted.
 */
export function packageFolder(module: string, repository: string): string | undefined {
  const tool = added.find(([pattern]) => pattern.test(module))?.[1];
  if (tool !== undefined) return join(repository, 'node_modules', tool);
  return /^\0?(.*[\\/]node_modules[\\/](?:@[^\\/]+[\\/])?[^\\/?]+)/.exec(module)?.[1];
}

const noticeName = /^(?:licen[cs]e|copying|copyright|notice)[\w-]*(?:\.(?:txt|md|markdown))?$/i;
const documentName = /licen[cs]e[^/\\]*\.pdf$/i;
/** Build tools list here what they themselves are made of, none of which ends in a build. */
const ofTheTool = /^# Licenses of bundled dependencies$/m;

/** The part of a readme under a heading that speaks of the licence. */
const readmeNotice = (readme: string): string | undefined =>
  /^(#+) *licen[cs]e[^\n]*\n([^]*?)(?=^#|$(?![^]))/im.exec(readme)?.[2]?.trim();

const text = (path: string): string => readFileSync(path, 'utf8').replaceAll('\r\n', '\n').trim();

const words = (value: unknown, key: string): string | undefined => {
  if (typeof value === 'string') return value;
  if (Array.isArray(value)) return value.map((item: unknown) => words(item, key)).join(' OR ') || undefined;
  return typeof value === 'object' && value !== null ? words(Reflect.get(value, key), key) : undefined;
};

/**
 * What a package says of itself, and all notices in its folder, those at its top first. For tests: packages are
 * planted.
 */
export function bundledPackage(folder: string): BundledPackage {
  const said = JSON.parse(text(join(folder, 'package.json'))) as Readonly<Record<string, unknown>>;
  const licence = words(said['license'] ?? said['licenses'], 'type');
  const files = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !relative(folder, entry.parentPath).split(/[\\/]/).includes('node_modules'))
    .toSorted((one, other) => one.parentPath.length - other.parentPath.length || one.name.localeCompare(other.name));
  const paths = (pattern: RegExp): string[] =>
    files.filter(({ name }) => pattern.test(name)).map(({ name, parentPath }) => join(parentPath, name));
  const notices = paths(noticeName).map((path) => text(path).split(ofTheTool)[0]?.trim() ?? '');
  const readme = paths(/^readme(?:\.(?:md|markdown|txt))?$/i)[0];
  const own = notices.length > 0 || readme === undefined ? undefined : readmeNotice(text(readme));
  return {
    name: words(said['name'], '') ?? '',
    version: words(said['version'], '') ?? '',
    licence: licence === undefined || /^UNLICEN[CS]ED$/i.test(licence) ? undefined : licence,
    author: words(said['author'], 'name'),
    notices: [...new Set([...notices, ...(own === undefined ? [] : [own])])].filter((notice) => notice !== ''),
    documents: paths(documentName),
  };
}

const line = '='.repeat(100);

const fileName = (path: string): string => path.replace(/^.*[\\/]/, '');

/** The notices of packages as one text, a list of them first. For tests: notices are planted. */
export const noticeText = (packages: readonly BundledPackage[]): string =>
  [
    'Skewbook is built with these packages. Each is under its own licence, whose text follows as the package gives it.',
    '',
    ...packages.map(
      (item) => `${item.name} ${item.version}: ${item.licence ?? (isLicensed(item) ? 'see its notice' : 'no licence')}`,
    ),
    ...packages.flatMap(({ name, version, licence, author, notices, documents }) => [
      '',
      line,
      `${name} ${version}${author === undefined ? '' : `, by ${author}`}`,
      ...(licence === undefined ? [] : [`Licence: ${licence}`]),
      ...documents.map((path) => `Its licence is in the file beside this one: ${fileName(path)}`),
      ...(notices.length > 0 ? notices.flatMap((notice) => ['', notice]) : ['', 'The package contains no notice.']),
    ]),
    '',
  ].join('\n');

/**
 * Writes LICENSE and THIRD-PARTY.txt beside what is built, with one plugin for the build and one for its workers, which
 * are bundled before the page that starts them is.
 */
export function thirdParty(repository: string): { readonly whole: Plugin; readonly worker: Plugin } {
  const folders = new Set<string>();
  let root = repository;
  const collect = (bundle: Rolldown.OutputBundle): void => {
    for (const part of Object.values(bundle)) {
      const modules =
        part.type === 'chunk' ? part.moduleIds : part.originalFileNames.map((path) => resolve(root, path));
      for (const module of modules) {
        const folder = packageFolder(module, repository);
        if (folder !== undefined) folders.add(folder);
      }
    }
  };
  return {
    worker: { name: 'skewbook:third-party-of-workers', apply: 'build', generateBundle: (_, bundle) => collect(bundle) },
    whole: {
      name: 'skewbook:third-party',
      apply: 'build',
      configResolved: (config) => {
        ({ root } = config);
      },
      generateBundle(_, bundle) {
        collect(bundle);
        const packages = [...folders]
          .map(bundledPackage)
          .toSorted((one, other) => one.name.localeCompare(other.name) || one.version.localeCompare(other.version));
        const write = (name: string, source: string | Uint8Array): void => {
          this.emitFile({ type: 'asset', fileName: name, source });
        };
        write('LICENSE', readFileSync(join(repository, 'LICENSE')));
        write('THIRD-PARTY.txt', noticeText(packages));
        for (const path of packages.flatMap(({ documents }) => documents)) write(fileName(path), readFileSync(path));
      },
    },
  };
}
