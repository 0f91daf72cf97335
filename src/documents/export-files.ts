import { buyingFindings } from '../order/buying-findings.ts';
import { findings } from '../checks/findings.ts';
import { comparedBelts, compareText, countLine, countsOf, findingLines } from '../cli/finding-lines.ts';
import { beltJoint } from '../drawing/belt-joint.ts';
import { jointDrawing } from '../drawing/joint-drawing.ts';
import { svgText } from '../drawing/svg.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { demoBook } from '../workbook/demo.ts';
import { Workbook } from '../workbook/workbook.ts';
import { exportedBook } from '../xlsx/write/write.ts';

/** What the program makes of the demo, as files that are committed: to look at, and to see when an output changes. */

/** A fixed moment, so that the files differ only when what they hold does. */
const stamp = new Date(Date.UTC(2026, 10, 25));
const note = 'Tern Quay is invented: its belts, plate series, prices and people exist only in this demo.';

async function filesOf(units: UnitSystem): Promise<[string, Uint8Array][]> {
  const book = new Workbook(demoBook(units));
  const found = [...findings(book), ...buyingFindings(book)];
  const name = `tern-quay-${units}`;
  const text = new TextEncoder();
  const lines = [
    note,
    '',
    ...found.flatMap((finding) => findingLines(finding)),
    '',
    `${countLine(countsOf(book))}${compareText(comparedBelts(found))}`,
  ];
  const drawing = jointDrawing(beltJoint(book, 0));
  return [
    [`${name}.xlsx`, (await exportedBook(book, found, { stamp })).bytes],
    [`${name}-findings.txt`, text.encode(`${lines.join('\n')}\n`)],
    [
      `${name}-findings.json`,
      text.encode(`${JSON.stringify({ note, units, counts: countsOf(book), findings: found }, null, 2)}\n`),
    ],
    ...(drawing === undefined
      ? []
      : [
          [
            `${name}-${String(book.read('Belts', 0, 'Belt'))}-joint.svg`,
            text.encode(svgText(drawing, { width: 900, height: 600, textSize: 12 })),
          ] satisfies [string, Uint8Array],
        ]),
  ];
}

export const exportFiles = async (): Promise<ReadonlyMap<string, Uint8Array>> =>
  new Map([...(await filesOf('metric')), ...(await filesOf('us'))]);
