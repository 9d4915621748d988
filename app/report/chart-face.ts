import type { ParsedFont } from "../chart/index.ts";
import type { FaceName } from "./fonts.ts";

/** The face of the report in which a font of the charts is measured and written. */
export function chartFace(font: ParsedFont): FaceName {
  return font.weight >= 600 ? "text-bold" : "text";
}
