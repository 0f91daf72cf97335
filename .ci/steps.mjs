import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { repository } from '../src/launch/built.mjs';

/** What `npm test` and `npm run quick` are made of: steps that pass or fail, and the line that counts them. */

/** Programs the tests need beside Node, by the Debian package that brings them. */
const needed = [
  { package: 'chromium', commands: ['chromium', 'chromium-browser', 'google-chrome'], purpose: 'tests of the page' },
  {
    package: 'libreoffice-calc',
    commands: ['soffice', 'libreoffice'],
    purpose: 'tests that recalculate exported books',
  },
  { package: 'libreoffice-draw', commands: ['lodraw'], purpose: 'tests that open drawings in another program' },
  { package: 'poppler-utils', commands: ['pdftotext'], purpose: 'tests that read printed pages' },
  { package: 'zbar-tools', commands: ['zbarimg'], purpose: 'tests that read printed codes' },
  { package: 'python3', commands: ['python3'], purpose: 'tests that read and write archives in another program' },
  { package: 'unzip', commands: ['unzip'], purpose: 'tests that unpack archives in another program' },
];
const fonts = 'fonts-liberation';

const present = (command) => (process.env.PATH ?? '').split(':').some((folder) => existsSync(join(folder, command)));
const missing = () => needed.filter(({ commands }) => !commands.some(present));
const run = (command, args) => spawnSync(command, args, { cwd: repository, stdio: 'inherit' }).status === 0;

/** Sees to the programs: on Debian as root they are installed, elsewhere the user is told which and how. */
export function provide() {
  if (missing().length === 0) return;
  const packages = [...missing().map((program) => program.package), fonts];
  const install = ['install', '-y', '--no-install-recommends', ...packages];
  if (existsSync('/etc/debian_version') && process.getuid?.() === 0) {
    process.env.DEBIAN_FRONTEND = 'noninteractive';
    run('apt-get', ['update']);
    run('apt-get', install);
  }
  for (const { package: name, commands, purpose } of missing())
    console.error(`Missing: ${name} (${commands[0]}), for the ${purpose}.`);
  if (missing().length > 0) {
    console.error(
      `On Debian or Ubuntu type: sudo apt-get update && sudo apt-get ${install.join(' ')}\nElsewhere install ` +
        'Chromium, LibreOffice Calc and Draw, Poppler, ZBar, Python and unzip, so that their commands are on the path. Then: npm test',
    );
    console.log('0 passed, 1 failed');
    process.exit(1);
  }
}

const outcome = { passed: 0, failed: 0 };

/** A script of package.json as one thing that passes or fails. */
export function step(name, script) {
  console.log(`\n== ${name}`);
  const npm = process.env.npm_execpath;
  const args = ['run', '-s', script];
  const passed = npm === undefined ? run('npm', args) : run(process.execPath, [npm, ...args]);
  outcome[passed ? 'passed' : 'failed'] += 1;
}

/** Runs tests by vitest; a test that is left out counts as failed. */
export function tests(name, args) {
  console.log(`\n== ${name}`);
  const folder = mkdtempSync(join(tmpdir(), 'skewbook-tests-'));
  const report = join(folder, 'report.json');
  const passed = run(process.execPath, [
    'node_modules/vitest/vitest.mjs',
    'run',
    ...args,
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
  ]);
  try {
    const { numPassedTests, numTotalTests, success } = JSON.parse(readFileSync(report, 'utf8'));
    outcome.passed += numPassedTests;
    outcome.failed += numTotalTests - numPassedTests;
    // A file that could not even be loaded fails the run without failing a test.
    if ((!passed || !success) && numTotalTests === numPassedTests) outcome.failed += 1;
  } catch {
    outcome.failed += 1;
  }
  rmSync(folder, { recursive: true, force: true });
}

/** The last line, and the exit code that goes with it. */
export function finish() {
  console.log(`\n${outcome.passed} passed, ${outcome.failed} failed`);
  process.exitCode = outcome.failed === 0 ? 0 : 1;
}
