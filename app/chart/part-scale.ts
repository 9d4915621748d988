import { LinearScale } from "chart.js";
import { formatFixed } from "../../core/index.ts";
import { axisRange, narrowest } from "./axis-range.ts";
import { type Drawing, drawingOf, fontOf, planOf } from "./drawing.ts";
import { plainText } from "./plain-text.ts";
import type { PartPlan } from "./plan.ts";

const mostTicks = 8;
const labelGap = 5;

/** Size of the labels of an axis, in pixels. */
export function tickSize(fontSize: number): number {
  return fontSize - 1;
}

/**
 * Linear axis of one part of a chart. Chart.js chooses the ticks and turns values into pixels; the pixels are those of the
 * part's area in the plan rather than of the whole chart. Its id is the part's name.
 */
export class PartScale extends LinearScale {
  static override id = "part";
  static override defaults = { ...LinearScale.defaults };

  override determineDataLimits(): void {
    const drawing = drawingOf(this.chart);
    const { min, max } = drawing === null ? { min: 0, max: 1 } : rangeOf(drawing, this.id);
    this.min = min;
    this.max = max;
  }

  /** As many ticks as have room for their labels. */
  computeTickLimit(): number {
    const drawing = drawingOf(this.chart);
    const part = this.#part();
    if (drawing === null || part === null) return mostTicks;
    this.ctx.font = fontOf(drawing.theme, tickSize(planOf(this.chart)?.fontSize ?? 12));
    const decimals = Math.max(0, -Math.floor(Math.log10((this.max - this.min) / 5)));
    const widthOf = (value: number) => this.ctx.measureText(tickText(drawing, this.id, value, decimals)).width;
    const widest = Math.max(widthOf(this.min), widthOf(this.max));
    // Beside the words for no change there must be room for one more label.
    const pitch = this.id === "change" ? Math.max(widest, (widest + widthOf(0)) / 2) : widest;
    const room = (part.area.right - part.area.left) / (Math.min(pitch, 90) + labelGap);
    return Math.min(mostTicks, Math.max(3, Math.floor(room) + 1));
  }

  override getPixelForDecimal(decimal: number): number {
    const area = this.#part()?.area;
    return area === undefined ? super.getPixelForDecimal(decimal) : area.left + decimal * (area.right - area.left);
  }

  override getDecimalForPixel(pixel: number): number {
    const area = this.#part()?.area;
    return area === undefined ? super.getDecimalForPixel(pixel) : (pixel - area.left) / (area.right - area.left);
  }

  #part(): PartPlan | null {
    const plan = planOf(this.chart);
    return (this.id === "runs" ? plan?.runs : plan?.change) ?? null;
  }
}

function rangeOf({ specification }: Drawing, part: string): { readonly min: number; readonly max: number } {
  if (specification.kind === "change-strip") return { min: -specification.extent, max: specification.extent };
  // Bars begin at zero; a tick ends the axis.
  if (specification.kind === "budget") {
    return { min: 0, max: specification.rows.reduce((most, { share }) => Math.max(most, share), 1) };
  }
  const rows = specification.rows;
  if (part === "change") {
    // An interval is all there is to see of a change: one, at least, is drawn whole.
    const changes = rows.flatMap((row) => row.change ?? []);
    return axisRange([0], changes, narrowest(changes));
  }
  const values = rows.flatMap((row) => row.runs.map((run) => run.value));
  return axisRange(
    values,
    rows.flatMap((row) => row.mean ?? []),
  );
}

/** What is printed below a tick. */
export function tickText({ specification, locale }: Drawing, part: string, value: number, decimals: number): string {
  if (specification.kind === "change-strip") return "";
  if (part === "runs" || specification.kind === "budget") return formatFixed(value, decimals, locale);
  if (value === 0) return plainText(specification.noChangeText);
  const unit = plainText(specification.changeUnit);
  return `${value > 0 ? "+" : ""}${formatFixed(value, decimals, locale)}${unit === "" ? "" : `\u202f${unit}`}`;
}
