/** What a drawn thing stands for. Surfaces that keep structure (SVG) note it; others do not listen. */
export type MarkName =
  | "run"
  | "run-left-out"
  | "mean"
  | "change"
  | "variant-name"
  | "no-change"
  | "share"
  | "scatter-share";

export interface MarkedContext {
  beginMark(name: MarkName, title: string): void;
  endMark(): void;
}

/** Draws something as one mark. */
export function asMark(
  context: CanvasRenderingContext2D,
  name: MarkName,
  title: string,
  draw: (context: CanvasRenderingContext2D) => void,
): void {
  const marked = context as CanvasRenderingContext2D & Partial<MarkedContext>;
  marked.beginMark?.(name, title);
  draw(context);
  marked.endMark?.();
}
