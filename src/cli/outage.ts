import type { HeaderOf, SheetName } from '../../sheets/index.ts';
import { loadSolver } from '../solver/solver.ts';
import { columnNames } from '../records/inputs.ts';
import { Refusal } from '../formula/define.ts';
import { fleetOutage, type FleetOutage, type OutageTerms } from '../outage/fleet-outage.ts';
import { bookedText, outageBook, outageCalendarFile, outagePicture } from '../outage/outage-files.ts';
import { hoursText, momentText } from '../outage/moments.ts';
import { type OutagePlan, OutageRefusal } from '../outage/search/request.ts';
import { planOutage } from '../outage/search/plan.ts';
import { planSummary } from '../outage/plan-table.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { safetyPurpose } from '../workbook/safety.ts';
import { tableBook } from '../xlsx/write/table-book.ts';
import { crews } from '../../sheets/work/crews.ts';
import { windows } from '../../sheets/work/windows.ts';
import type { SheetDeclaration } from '../sheet/declaration.ts';
import { type Given, optionValue, optionWord } from './arguments.ts';
import { notUnderstoodLines } from './import-report.ts';
import { listBook } from './list-book.ts';
import { listOptions } from './list-options.ts';
import { checkOutput, endingOf, replaces, writeWhole } from './output-file.ts';
import { scopeOf, secondsOf, solverRuntime } from './planning-options.ts';
import type { SourcePlaces } from './source-places.ts';
import { FileError, UsageError } from './usage-error.ts';
import { visibleLines } from './visible-text.ts';

/** Which belts are down when, and which crews work on them, as a calendar, a workbook or a picture. */

const endings = ['ics', 'xlsx', 'svg'] as const;
const usualStep = 30;
const usualSeconds = 20;

function stepOf(typed: Given): number {
  const text = optionValue(typed, 'step');
  const step = text === undefined ? usualStep : Number(text);
  if (!(Number.isInteger(step) && step >= 1 && step <= 480))
    throw new UsageError(`--step must be a whole number of minutes from 1 to 480; "${text ?? ''}" was given`);
  return step;
}

/** Names of a sheet's records that were chosen; undefined when none were. */
function chosen<Sheet extends SheetName>(
  typed: Given,
  option: string,
  book: Workbook,
  file: string,
  { name: sheet, key, record }: SheetDeclaration<Sheet, HeaderOf<Sheet>>,
): readonly string[] | undefined {
  const names = typed.options.get(option);
  if (names === undefined) return undefined;
  const known = columnNames(book, sheet, key).map(String);
  for (const name of names) {
    if (known.some((one) => one.toLowerCase() === name.toLowerCase())) continue;
    throw new UsageError(
      `${file} has no ${record} ` +
        `"${name}"${known.length === 0 ? `: its sheet ${sheet} is empty` : `; it has ` + `${known.join(', ')}`}.`,
    );
  }
  return names;
}

function termsOf(typed: Given, book: Workbook, file: string): OutageTerms {
  const [crewNames, windowNames] = [
    chosen(typed, 'crew', book, file, crews),
    chosen(typed, 'window', book, file, windows),
  ];
  return {
    scope: scopeOf(typed, book, file, 'plan'),
    failing: typed.options.has('failing'),
    aim:
      optionWord(typed, 'aim', ['least-loss', 'earliest']) === 'earliest'
        ? 'earliest finish'
        : 'minimum lost production',
    step: stepOf(typed),
    dueLimits: !typed.options.has('past-due'),
    ...(crewNames === undefined ? {} : { crews: crewNames }),
    ...(windowNames === undefined ? {} : { windows: windowNames }),
  };
}

async function planned(
  typed: Given,
  book: Workbook,
  file: string,
): Promise<{ readonly fleet: FleetOutage; readonly plan: OutagePlan }> {
  const terms = termsOf(typed, book, file);
  const seconds = secondsOf(typed, usualSeconds);
  try {
    const fleet = fleetOutage(book, terms);
    return { fleet, plan: await planOutage(fleet.request, { solver: () => loadSolver(() => solverRuntime), seconds }) };
  } catch (error) {
    if (error instanceof OutageRefusal)
      throw new FileError(
        `No plan could be made for ${file}: ` +
          `${error.faults.map(({ what, reason }) => `${what}: ${reason}`).join('; ')}.`,
        { cause: error },
      );
    if (error instanceof Refusal)
      throw new FileError(`No plan could be made for ${file}: ${error.argument} ${error.message}.`, { cause: error });
    throw error;
  }
}

function planLines(
  { request, belts, leftOut, remarks, notes, share }: FleetOutage,
  plan: OutagePlan,
  places: SourcePlaces,
): string[] {
  return [
    ...remarks.map((remark) => `Check: ${places.of(remark)}: ${remark.message}.`),
    ...leftOut.map(
      ({ record, belt, reason, column, cell }) =>
        `Left out: ${belt}: ${reason} (${places.of({ sheet: 'Belts', record, column, cell })}).`,
    ),
    ...belts
      .filter(({ unknown }) => unknown.length > 0)
      .map(({ job, unknown }) => `Planned with checks not known: ${job.belt}: ${unknown.join(', ')}.`),
    ...notes,
    ...(request.jobs.length === 0 ? ['No belt to plan.'] : []),
    ...(request.crews.length === 0 ? [`No crew: enter one in the sheet ${crews.name}.`] : []),
    ...(request.windows.length === 0 ? [`No window: enter one in the sheet ${windows.name}.`] : []),
    ...plan.planned.map(
      ({ belt, start, end, hours, crews: team, window }) =>
        `${momentText(start)} to ${momentText(end)}: ${belt}, ${hoursText(hours)}, ${team.join(' and ')} (${window})`,
    ),
    ...plan.unplanned.map(({ belt, reason }) => `Does not fit: ${belt}: ${reason}.`),
    ...(request.jobs.length === 0 ? [] : planSummary(request, plan)),
    ...(plan.planned.length === 0 ? [] : [bookedText({ share })]),
    safetyPurpose,
  ];
}

/** Writes the plan and says what is in it; answers 1 when not every job is planned. */
export async function run(typed: Given): Promise<number> {
  const [input = '', output = ''] = typed.words;
  const options = listOptions(typed);
  const lanes = optionWord(typed, 'by', ['crew', 'area']) ?? 'crew';
  const inputs = [input, ...(options.series === undefined ? [] : [options.series])];
  checkOutput(output, inputs, endings);
  const { book, report, places } = listBook(input, options);
  const { fleet, plan } = await planned(typed, book, input);
  const lines = [
    ...notUnderstoodLines(input, report.notUnderstood).map((line) => line.trim()),
    ...planLines(fleet, plan, places),
  ];
  if (plan.planned.length === 0) {
    process.stdout.write(visibleLines(lines));
    process.stderr.write(`${output} was not written: nothing is planned.\n`);
    return 1;
  }
  const ending = endingOf(output, endings);
  const text = (content: string): Uint8Array => new TextEncoder().encode(content);
  const bytes =
    ending === 'ics'
      ? text(outageCalendarFile(book.state, plan, Date.now()))
      : ending === 'svg'
        ? text(outagePicture(book.state, fleet, plan, { lanes }))
        : await tableBook(book, outageBook(book.state, fleet, plan, input));
  checkOutput(output, inputs, endings);
  const replaced = replaces(output);
  writeWhole(output, bytes);
  process.stdout.write(visibleLines([...lines, `Wrote ${output}${replaced ? ', replacing the existing file' : ''}.`]));
  return plan.unplanned.length === 0 ? 0 : 1;
}
