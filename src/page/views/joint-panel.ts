import { shortText } from '../../units/shown-mark.ts';
import { unnamedBelt } from '../../records/belt.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import { guard } from 'lit-html/directives/guard.js';
import { unsafeHTML } from 'lit-html/directives/unsafe-html.js';
import { beltJoint } from '../../drawing/belt-joint.ts';
import { jointDetail } from '../../drawing/joint-detail.ts';
import { jointDrawing } from '../../drawing/joint-drawing.ts';
import { svgText } from '../../drawing/svg.ts';
import type { Desk } from '../desk.ts';
import { deferrals, safetyPurpose } from '../../workbook/safety.ts';
import { openSafety } from './help-dialog.ts';
import { shownBelt } from '../shown-belt.ts';

/** The joint of the selected belt, to scale. */

const picture = { width: 348, height: 204, textSize: 11 };
const enlarged = { width: 348, height: 136, textSize: 11 };

function content(desk: Desk, shown: number | undefined): TemplateResult {
  const { book } = desk;
  if (shown === undefined) {
    return html`<p class="empty">Select a belt to see its joint (splice) to scale: the cut, the plates, the holes and
      the marking-out dimensions.</p>`;
  }
  const joint = beltJoint(book, shown);
  const drawing = jointDrawing(joint);
  const detail = jointDetail(joint);
  const { geometry } = joint;
  return html`
    <h3 class="joint-name">${joint.belt || unnamedBelt}
      ${
        geometry === undefined
          ? nothing
          : html`<span>${
              geometry.skew === 0 ? 'square' : `skew ${shortText(geometry.skew, 2)}°`
            }${joint.series === '' ? '' : `, ${joint.series}`}${
              geometry.plates.length === 0 ? '' : `, ${geometry.plates.length} plates`
            }</span>`
      }
    </h3>
    ${drawing === undefined ? nothing : html`<div class="joint-picture">${unsafeHTML(svgText(drawing, picture))}</div>`}
    ${
      detail === undefined
        ? nothing
        : html`<div class="joint-picture"
      title="The near edge, enlarged and rotated so that the cut is horizontal">${unsafeHTML(
        svgText(detail, enlarged),
      )}</div>`
    }
    ${joint.remarks.map((remark) => html`<p class="remark">${remark}</p>`)}
    <p class="remark">${safetyPurpose} ${deferrals.use}
      <button class="link" @click=${() => openSafety(desk)}>Safety at the belt</button></p>
    ${
      geometry !== undefined && geometry.plates.length > 0
        ? html`<p
      class="caption">To scale. Below: the near edge enlarged, rotated so that the cut is horizontal. The series gives
        no plate length: plates are drawn to just beyond their holes.</p>`
        : nothing
    }
  `;
}

export const jointView = (desk: Desk): unknown =>
  guard([desk.book.state, shownBelt(desk)], () => content(desk, shownBelt(desk)));
