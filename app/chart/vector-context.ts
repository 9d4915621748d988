import { type ParsedFont, parseFont } from "./font-shorthand.ts";
import { apply, arcCurves, identity, type Matrix, multiply, type Segment, scaleOf, sweepOf } from "./vector-path.ts";

/** Width of a text in the output's own font, in the unit of `font.size`. */
export type MeasureFont = (text: string, font: ParsedFont) => number;

export interface Stroke {
  readonly colour: string;
  readonly width: number;
  readonly cap: CanvasLineCap;
  readonly join: CanvasLineJoin;
  readonly miterLimit: number;
  readonly dash: readonly number[];
  readonly dashOffset: number;
  readonly opacity: number;
}

export interface Fill {
  readonly colour: string;
  readonly opacity: number;
  readonly rule: CanvasFillRule;
}

export interface PlacedText {
  readonly text: string;
  /** Left end of the baseline. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly font: ParsedFont;
  readonly fill: Fill;
}

/** Outlines that all cut what is drawn. */
export type Clip = readonly (readonly Segment[])[];

interface State {
  matrix: Matrix;
  clip: Clip;
  fillStyle: string;
  strokeStyle: string;
  lineWidth: number;
  lineCap: CanvasLineCap;
  lineJoin: CanvasLineJoin;
  miterLimit: number;
  lineDash: readonly number[];
  lineDashOffset: number;
  globalAlpha: number;
  font: string;
  textAlign: CanvasTextAlign;
  textBaseline: CanvasTextBaseline;
}

/** Parts of a line's height above and below the baseline, for baselines other than the alphabetic. Em fractions, usual for text fonts. */
const ascent = 0.75;
const descent = 0.25;

/**
 * The part of a canvas' 2-D context that Chart.js and our plug-in use, for surfaces that keep outlines and text. Paths are
 * gathered in surface coordinates; subclasses write them down. Text is upright: rotation moves it but does not turn it.
 * @see HTML Living Standard, 4.12.5.1, for what each member does.
 */
export abstract class VectorContext {
  #state: State = {
    matrix: identity,
    clip: [],
    fillStyle: "#000000",
    strokeStyle: "#000000",
    lineWidth: 1,
    lineCap: "butt",
    lineJoin: "miter",
    miterLimit: 10,
    lineDash: [],
    lineDashOffset: 0,
    globalAlpha: 1,
    font: "10px sans-serif",
    textAlign: "start",
    textBaseline: "alphabetic",
  };
  #saved: State[] = [];
  #path: Segment[] = [];
  readonly #measure: MeasureFont;

  constructor(measure: MeasureFont) {
    this.#measure = measure;
  }

  protected abstract paintPath(path: readonly Segment[], clip: Clip, fill: Fill | null, stroke: Stroke | null): void;
  protected abstract paintText(text: PlacedText, clip: Clip): void;

  /** This context where a canvas' own is asked for: all that the charts use is here. */
  get asCanvasContext(): CanvasRenderingContext2D {
    return this as unknown as CanvasRenderingContext2D;
  }

  get fillStyle(): string {
    return this.#state.fillStyle;
  }
  set fillStyle(value: string) {
    this.#state.fillStyle = value;
  }
  get strokeStyle(): string {
    return this.#state.strokeStyle;
  }
  set strokeStyle(value: string) {
    this.#state.strokeStyle = value;
  }
  get lineWidth(): number {
    return this.#state.lineWidth;
  }
  set lineWidth(value: number) {
    if (value > 0 && Number.isFinite(value)) this.#state.lineWidth = value;
  }
  get lineCap(): CanvasLineCap {
    return this.#state.lineCap;
  }
  set lineCap(value: CanvasLineCap) {
    this.#state.lineCap = value;
  }
  get lineJoin(): CanvasLineJoin {
    return this.#state.lineJoin;
  }
  set lineJoin(value: CanvasLineJoin) {
    this.#state.lineJoin = value;
  }
  get miterLimit(): number {
    return this.#state.miterLimit;
  }
  set miterLimit(value: number) {
    this.#state.miterLimit = value;
  }
  get lineDashOffset(): number {
    return this.#state.lineDashOffset;
  }
  set lineDashOffset(value: number) {
    this.#state.lineDashOffset = value;
  }
  get globalAlpha(): number {
    return this.#state.globalAlpha;
  }
  set globalAlpha(value: number) {
    if (value >= 0 && value <= 1) this.#state.globalAlpha = value;
  }
  get font(): string {
    return this.#state.font;
  }
  set font(value: string) {
    this.#state.font = value;
  }
  get textAlign(): CanvasTextAlign {
    return this.#state.textAlign;
  }
  set textAlign(value: CanvasTextAlign) {
    this.#state.textAlign = value;
  }
  get textBaseline(): CanvasTextBaseline {
    return this.#state.textBaseline;
  }
  set textBaseline(value: CanvasTextBaseline) {
    this.#state.textBaseline = value;
  }

  setLineDash(dash: readonly number[]): void {
    // An odd list is repeated, as the canvas does.
    this.#state.lineDash = dash.length % 2 === 0 ? [...dash] : [...dash, ...dash];
  }
  getLineDash(): number[] {
    return [...this.#state.lineDash];
  }

  save(): void {
    this.#saved.push({ ...this.#state });
  }
  restore(): void {
    this.#state = this.#saved.pop() ?? this.#state;
  }

  translate(x: number, y: number): void {
    this.transform(1, 0, 0, 1, x, y);
  }
  scale(x: number, y: number): void {
    this.transform(x, 0, 0, y, 0, 0);
  }
  rotate(angle: number): void {
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    this.transform(cos, sin, -sin, cos, 0, 0);
  }
  transform(a: number, b: number, c: number, d: number, e: number, f: number): void {
    this.#state.matrix = multiply(this.#state.matrix, [a, b, c, d, e, f]);
  }
  setTransform(a: number, b: number, c: number, d: number, e: number, f: number): void {
    this.#state.matrix = [a, b, c, d, e, f];
  }
  resetTransform(): void {
    this.#state.matrix = identity;
  }

  beginPath(): void {
    this.#path = [];
  }
  closePath(): void {
    if (this.#path.length > 0) this.#path.push({ kind: "close" });
  }
  moveTo(x: number, y: number): void {
    const [px, py] = apply(this.#state.matrix, x, y);
    this.#path.push({ kind: "move", x: px, y: py });
  }
  lineTo(x: number, y: number): void {
    const [px, py] = apply(this.#state.matrix, x, y);
    this.#path.push({ kind: this.#path.length === 0 ? "move" : "line", x: px, y: py });
  }
  bezierCurveTo(ax: number, ay: number, bx: number, by: number, x: number, y: number): void {
    if (this.#path.length === 0) this.moveTo(ax, ay);
    const { matrix } = this.#state;
    this.#path.push({
      kind: "curve",
      points: [...apply(matrix, ax, ay), ...apply(matrix, bx, by), ...apply(matrix, x, y)],
    });
  }
  arc(x: number, y: number, radius: number, start: number, end: number, counterclockwise = false): void {
    this.ellipse(x, y, radius, radius, 0, start, end, counterclockwise);
  }
  ellipse(
    x: number,
    y: number,
    radiusX: number,
    radiusY: number,
    rotation: number,
    start: number,
    end: number,
    counterclockwise = false,
  ): void {
    const [dx, dy] = [radiusX * Math.cos(start), radiusY * Math.sin(start)];
    this.lineTo(
      x + dx * Math.cos(rotation) - dy * Math.sin(rotation),
      y + dx * Math.sin(rotation) + dy * Math.cos(rotation),
    );
    const sweep = sweepOf(start, end, counterclockwise);
    for (const points of arcCurves(x, y, radiusX, radiusY, rotation, start, sweep)) this.bezierCurveTo(...points);
  }
  rect(x: number, y: number, width: number, height: number): void {
    this.moveTo(x, y);
    this.lineTo(x + width, y);
    this.lineTo(x + width, y + height);
    this.lineTo(x, y + height);
    this.closePath();
  }

  fill(rule: CanvasFillRule = "nonzero"): void {
    if (this.#path.length > 0) this.paintPath(this.#path, this.#state.clip, this.#fillNow(rule), null);
  }
  stroke(): void {
    if (this.#path.length > 0) this.paintPath(this.#path, this.#state.clip, null, this.#strokeNow());
  }
  clip(): void {
    this.#state.clip = [...this.#state.clip, [...this.#path]];
  }
  fillRect(x: number, y: number, width: number, height: number): void {
    this.#aside(() => {
      this.rect(x, y, width, height);
      this.fill();
    });
  }
  strokeRect(x: number, y: number, width: number, height: number): void {
    this.#aside(() => {
      this.rect(x, y, width, height);
      this.stroke();
    });
  }
  /** Nothing lies on a fresh surface, and a chart is drawn once: there is nothing to clear. */
  clearRect(): void {}

  measureText(text: string): { width: number; actualBoundingBoxLeft: number; actualBoundingBoxRight: number } {
    const width = this.#measure(text, parseFont(this.#state.font));
    return { width, actualBoundingBoxLeft: 0, actualBoundingBoxRight: width };
  }
  fillText(text: string, x: number, y: number): void {
    const { matrix, textAlign, textBaseline, clip } = this.#state;
    const font = parseFont(this.#state.font);
    const scale = scaleOf(matrix);
    const width = this.#measure(text, font);
    const left = x - width * (textAlign === "center" ? 0.5 : textAlign === "right" || textAlign === "end" ? 1 : 0);
    const down =
      textBaseline === "top" || textBaseline === "hanging"
        ? ascent
        : textBaseline === "middle"
          ? (ascent - descent) / 2
          : textBaseline === "bottom" || textBaseline === "ideographic"
            ? -descent
            : 0;
    const [px, py] = apply(matrix, left, y + down * font.size);
    const placed = { text, x: px, y: py, width: width * scale, font: { ...font, size: font.size * scale } };
    this.paintText({ ...placed, fill: this.#fillNow("nonzero") }, clip);
  }
  /** Letters have no outlines here; a halo round a text is left out. */
  strokeText(): void {}

  #fillNow(rule: CanvasFillRule): Fill {
    return { colour: this.#state.fillStyle, opacity: this.#state.globalAlpha, rule };
  }
  #strokeNow(): Stroke {
    const state = this.#state;
    const scale = scaleOf(state.matrix);
    return {
      colour: state.strokeStyle,
      width: state.lineWidth * scale,
      cap: state.lineCap,
      join: state.lineJoin,
      miterLimit: state.miterLimit,
      dash: state.lineDash.map((length) => length * scale),
      dashOffset: state.lineDashOffset * scale,
      opacity: state.globalAlpha,
    };
  }
  /** Paints a shape of its own without disturbing the current path. */
  #aside(paint: () => void): void {
    const path = this.#path;
    this.#path = [];
    paint();
    this.#path = path;
  }
}
