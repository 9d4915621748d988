import {
  type Clip,
  type Fill,
  type MeasureFont,
  type PlacedText,
  type Stroke,
  VectorContext,
} from "./vector-context.ts";
import type { Segment } from "./vector-path.ts";

/** The part of a PDF document that outlines are drawn with; distances in points, from the page's upper left corner. */
export interface PdfDrawing {
  save(): unknown;
  restore(): unknown;
  moveTo(x: number, y: number): unknown;
  lineTo(x: number, y: number): unknown;
  bezierCurveTo(ax: number, ay: number, bx: number, by: number, x: number, y: number): unknown;
  closePath(): unknown;
  lineWidth(width: number): unknown;
  lineCap(cap: CanvasLineCap): unknown;
  lineJoin(join: CanvasLineJoin): unknown;
  miterLimit(limit: number): unknown;
  dash(lengths: number[], options: { phase: number }): unknown;
  fillColor(colour: string, opacity?: number): unknown;
  strokeColor(colour: string, opacity?: number): unknown;
  fill(rule?: "even-odd" | "non-zero"): unknown;
  stroke(): unknown;
  clip(): unknown;
}

/** Writes a text, its baseline beginning at a point of the page. */
export type WritePdfText = (text: PlacedText) => void;

/**
 * Draws onto a page of a PDF: outlines as outlines, text as text in the page's own fonts. Pixels become points by `scale`, and
 * the chart's corner comes to (x, y).
 */
export class PdfContext extends VectorContext {
  readonly #document: PdfDrawing;
  readonly #place: { readonly x: number; readonly y: number; readonly scale: number };
  readonly #write: WritePdfText;

  constructor(
    document: PdfDrawing,
    place: { readonly x: number; readonly y: number; readonly scale: number },
    measure: MeasureFont,
    write: WritePdfText,
  ) {
    super(measure);
    this.#document = document;
    this.#place = place;
    this.#write = write;
  }

  protected override paintPath(path: readonly Segment[], clip: Clip, fill: Fill | null, stroke: Stroke | null): void {
    const { scale } = this.#place;
    this.#within(clip, (document) => {
      if (stroke !== null) {
        document.lineWidth(stroke.width * scale);
        document.lineCap(stroke.cap);
        document.lineJoin(stroke.join);
        document.miterLimit(stroke.miterLimit);
        if (stroke.dash.length > 0) {
          document.dash(
            stroke.dash.map((length) => length * scale),
            { phase: stroke.dashOffset * scale },
          );
        }
        document.strokeColor(stroke.colour, stroke.opacity);
      }
      if (fill !== null) document.fillColor(fill.colour, fill.opacity);
      this.#trace(path);
      if (fill !== null) document.fill(fill.rule === "evenodd" ? "even-odd" : "non-zero");
      else document.stroke();
    });
  }

  protected override paintText(text: PlacedText, clip: Clip): void {
    const { x, y, scale } = this.#place;
    const font = { ...text.font, size: text.font.size * scale };
    this.#within(clip, () => {
      this.#write({ ...text, font, x: x + text.x * scale, y: y + text.y * scale, width: text.width * scale });
    });
  }

  #within(clip: Clip, paint: (document: PdfDrawing) => void): void {
    this.#document.save();
    for (const path of clip) {
      this.#trace(path);
      this.#document.clip();
    }
    paint(this.#document);
    this.#document.restore();
  }

  #trace(path: readonly Segment[]): void {
    const { x, y, scale } = this.#place;
    for (const segment of path) {
      if (segment.kind === "close") this.#document.closePath();
      else if (segment.kind === "curve") {
        const [ax, ay, bx, by, cx, cy] = segment.points;
        const [px, py] = [(value: number) => x + value * scale, (value: number) => y + value * scale];
        this.#document.bezierCurveTo(px(ax), py(ay), px(bx), py(by), px(cx), py(cy));
      } else if (segment.kind === "move") this.#document.moveTo(x + segment.x * scale, y + segment.y * scale);
      else this.#document.lineTo(x + segment.x * scale, y + segment.y * scale);
    }
  }
}
