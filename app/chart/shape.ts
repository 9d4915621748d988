/** Shapes that stand for variants. Seven against six colours: 42 variants pass before a pair of the two returns. */
export const shapeNames = ["circle", "square", "triangle", "diamond", "inverted-triangle", "hexagon", "star"] as const;
export type ShapeName = (typeof shapeNames)[number];

/** Shape of the variant at this position of the study, from 0. */
export function variantShape(index: number): ShapeName {
  return shapeNames[index % shapeNames.length] ?? "circle";
}

type PathContext = Pick<CanvasRenderingContext2D, "beginPath" | "moveTo" | "lineTo" | "arc" | "rect" | "closePath">;

/** Begins a path with the outline of a shape. Shapes of one radius look equally large, so their corners reach past it. */
export function traceShape(context: PathContext, shape: ShapeName, x: number, y: number, radius: number): void {
  context.beginPath();
  switch (shape) {
    case "circle":
      context.arc(x, y, radius, 0, 2 * Math.PI);
      context.closePath();
      break;
    case "square":
      context.rect(x - radius * 0.89, y - radius * 0.89, radius * 1.78, radius * 1.78);
      break;
    case "triangle":
      polygon(context, x, y + radius * 0.22, [radius * 1.24], 3, -90);
      break;
    case "inverted-triangle":
      polygon(context, x, y - radius * 0.22, [radius * 1.24], 3, 90);
      break;
    case "diamond":
      polygon(context, x, y, [radius * 1.25], 4, -90);
      break;
    case "hexagon":
      polygon(context, x, y, [radius * 1.1], 6, 0);
      break;
    case "star":
      polygon(context, x, y + radius * 0.08, [radius * 1.4, radius * 0.62], 10, -90);
      break;
  }
}

/** A closed polygon about (x, y); corners take the radii in turn. */
function polygon(
  context: PathContext,
  x: number,
  y: number,
  radii: readonly number[],
  corners: number,
  firstDegrees: number,
): void {
  for (let corner = 0; corner < corners; corner++) {
    const angle = ((firstDegrees + (360 * corner) / corners) * Math.PI) / 180;
    const radius = radii[corner % radii.length] ?? 0;
    const at = [x + radius * Math.cos(angle), y + radius * Math.sin(angle)] as const;
    if (corner === 0) context.moveTo(...at);
    else context.lineTo(...at);
  }
  context.closePath();
}
