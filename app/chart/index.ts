/**
 * Charts: from the core's specification to one Chart.js configuration, and surfaces to draw it on.
 *
 * On a page, with a canvas in a box whose height is set from its width:
 *
 *     const height = chartHeight(specification, box.clientWidth); // and again when the width changes
 *     box.style.height = `${height}px`;                           // the box: position relative
 *     const chart = new Chart(canvas, chartConfiguration(specification, theme, locale));
 *     // when specification, theme or language change: chart.destroy(), and make it anew (there is no animation to lose)
 *     document.fonts.ready.then(() => chart.update());            // texts are measured in the page's own font
 *
 * With react-chartjs-2: `<Chart {...chartConfiguration(…)} />` in such a box; it follows changed data and options by itself.
 * The canvas takes `role="img"` and `aria-label={specification.textAlternative}`. Pointing at a run shows its name and value.
 *
 * As SVG or PDF, without a document or a window: `drawChart` onto an `SvgContext` or a `PdfContext`.
 */
export { chartConfiguration } from "./configuration.ts";
export { type ChartSize, drawChart } from "./draw-chart.ts";
export { type ParsedFont, parseFont } from "./font-shorthand.ts";
export type { MarkedContext, MarkName } from "./marked-context.ts";
export { PdfContext, type PdfDrawing, type WritePdfText } from "./pdf-context.ts";
export { plainText } from "./plain-text.ts";
export { chartHeight } from "./plan.ts";
export { type ShapeName, shapeNames, traceShape, variantShape } from "./shape.ts";
export { escapeMarkup, SvgContext } from "./svg-context.ts";
export { type ChartTheme, darkTheme, lightTheme, printTheme, variantColour } from "./theme.ts";
export type { MeasureFont, PlacedText } from "./vector-context.ts";
