import type { SheetField } from "../../../core/index.ts";
import { breakLines, fitLine } from "../line-break.ts";
import type { Element } from "../pdf/flow.ts";
import { writeText } from "../pdf/write-text.ts";
import { textWidth } from "../text-run.ts";
import type { SheetCanvas } from "./sheet-canvas.ts";
import { box, labelHeight, leadingOf, rowGap, style, tick } from "./sheet-measures.ts";

const padding = 4;
const gap = 3;
/** Between a field and the next. */
const between = 5;
/** Lines to write on in a field for sentences, as far apart as handwriting needs. */
const writingLine = 24;
/** A value with more lines is cut: names can be long, but the sheet has to be filled in. */
const mostLines = 6;

/** A field that has been laid out: how high it is, and how it is drawn. */
export interface LaidField {
  readonly height: number;
  draw(list: Element, left: number, top: number, height: number): void;
}

/** Room of a field in points, the distance to the next taken off. */
export function layOutField(canvas: SheetCanvas, field: SheetField, room: number): LaidField {
  const width = room - between;
  const unitRoom = field.unit === null ? 0 : textWidth(field.unit, "text", style.label.size) + gap;
  const choiceRoom = field.choices.length === 0 ? 0 : choicesWidth(field.choices);
  const boxWidth = boxWidthOf(field, width, unitRoom, choiceRoom);
  const labelLeft = field.isTicked ? tick + gap : 0;
  const hintRoom = field.hint === null ? 0 : textWidth(field.hint, "text", style.label.size) + gap;
  const labels = breakLines(field.label, style.label, width - labelLeft - hintRoom);
  const value = valueLines(field.value, boxWidth - 2 * padding);
  const choices = choiceRows(field, width - (field.isWritten ? boxWidth + unitRoom + 2 * gap : 0));
  const boxHeight = Math.max(
    box.height,
    value.lines.length * value.leading + 2 * padding,
    choices.length * leadingOf.choice,
  );
  const labelsHeight = labels.length * labelHeight;
  return {
    height: labelsHeight + boxHeight + rowGap,
    draw(list, left, top, height) {
      const item = canvas.element(list, "LI");
      const label = canvas.element(item, "Lbl");
      const body = canvas.element(item, "LBody");
      // Boxes of one row stand on one line, however many lines their labels have.
      const boxTop = top + height - rowGap - (field.width === "rest" ? height - labelsHeight - rowGap : boxHeight);
      const labelTop = boxTop - labelsHeight;
      canvas.text(label, labels, style.label, { left: left + labelLeft, top: labelTop, leading: labelHeight });
      label.end();
      const bottom = top + height - rowGap;
      const outline = () => canvas.outline(left, boxTop, boxWidth, bottom - boxTop);
      if (field.isTicked) canvas.artifact(() => canvas.outline(left, labelTop + 0.5, tick, tick));
      if (field.isWritten && field.value === null) {
        const blank = canvas.element(body, "Span", field.blank);
        blank.add(() => {
          outline();
          if (field.width === "rest") {
            for (let y = boxTop + writingLine; y < bottom - writingLine / 2; y += writingLine) {
              canvas.rule(left + padding, left + boxWidth - padding, y, 0.5);
            }
          }
        });
        blank.end();
      } else if (field.isWritten) {
        canvas.artifact(outline);
        const first = boxTop + (boxHeight - value.lines.length * value.leading) / 2;
        canvas.text(body, value.lines, value.style, {
          left: left + padding,
          top: first + (value.leading - value.style.size * 1.15) / 2,
          leading: value.leading,
        });
      }
      const middle = bottom - box.height / 2;
      if (field.hint !== null) {
        const hint = field.hint;
        body.add(() => {
          writeText(canvas.document, hint, style.label, left + boxWidth - hintRoom + gap, labelTop + 8.1);
        });
      }
      if (field.unit !== null) {
        const unit = field.unit;
        body.add(() => writeText(canvas.document, unit, style.label, left + boxWidth + gap, middle + 3));
      }
      drawChoices(
        canvas,
        body,
        choices,
        left + (field.isWritten ? boxWidth + unitRoom + 2 * gap : 0),
        boxTop,
        boxHeight,
      );
      body.end();
      item.end();
    },
  };
}

/** A number's box is of one size wherever it stands; words take what room there is. */
function boxWidthOf(field: SheetField, width: number, unitRoom: number, choiceRoom: number): number {
  if (!field.isWritten) return 0;
  const isNumber = field.unit !== null || field.hint !== null;
  if (isNumber) return Math.min(box.number, width);
  return Math.max(width - unitRoom - choiceRoom, Math.min(width, box.number));
}

function valueLines(value: string | null, room: number) {
  const large = { style: style.value, leading: leadingOf.value };
  if (value === null) return { ...large, lines: [] as string[] };
  const lines = breakLines(value, style.value, room);
  if (lines.length === 1) return { ...large, lines };
  const small = breakLines(value, style.smallValue, room);
  const kept = small.slice(0, mostLines);
  if (small.length > mostLines) {
    kept[mostLines - 1] = fitLine(small.slice(mostLines - 1).join(""), style.smallValue, room);
  }
  return { style: style.smallValue, leading: leadingOf.smallValue, lines: kept };
}

const choiceWidth = (choice: string) => tick + gap + textWidth(choice, "text", style.label.size) + 2 * gap;

function choicesWidth(choices: readonly string[]): number {
  return Math.max(...choices.map(choiceWidth));
}

/** Boxes to tick, beside each other where there is room, else below each other. */
function choiceRows(field: SheetField, room: number): string[][] {
  const rows: string[][] = [];
  let used = Number.POSITIVE_INFINITY;
  for (const choice of field.choices) {
    const own = choiceWidth(choice);
    if (used + own > room) {
      rows.push([choice]);
      used = own;
    } else {
      rows.at(-1)?.push(choice);
      used += own;
    }
  }
  return rows;
}

function drawChoices(
  canvas: SheetCanvas,
  body: Element,
  rows: readonly (readonly string[])[],
  left: number,
  top: number,
  height: number,
): void {
  const leading = leadingOf.choice;
  const first = top + (height - rows.length * leading) / 2 + (leading - tick) / 2;
  for (const [at, row] of rows.entries()) {
    let x = left;
    for (const choice of row) {
      const [boxLeft, boxTop] = [x, first + at * leading];
      canvas.artifact(() => canvas.outline(boxLeft, boxTop, tick, tick));
      body.add(() => writeText(canvas.document, choice, style.label, boxLeft + tick + gap, boxTop + 7.7));
      x += choiceWidth(choice);
    }
  }
}
