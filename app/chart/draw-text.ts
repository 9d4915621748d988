/**
 * Writes a text, and the sheet behind it: no line of the grid runs through the letters. Alignment and font are the context's.
 */
export function fillTextOnSheet(
  context: CanvasRenderingContext2D,
  text: string,
  x: number,
  baseline: number,
  fontSize: number,
  colours: { readonly ink: string; readonly sheet: string },
): void {
  const width = context.measureText(text).width;
  const left = context.textAlign === "center" ? x - width / 2 : x;
  context.fillStyle = colours.sheet;
  context.fillRect(left - 2, baseline - fontSize * 0.78, width + 4, fontSize);
  context.fillStyle = colours.ink;
  context.fillText(text, x, baseline);
}
