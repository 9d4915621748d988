import { BasePlatform, Chart } from "chart.js";
import type { ChartSpecification, Locale } from "../../core/index.ts";
import { chartConfiguration } from "./configuration.ts";
import type { ChartTheme } from "./theme.ts";

export interface ChartSize {
  readonly width: number;
  readonly height: number;
  readonly theme: ChartTheme;
  readonly locale: Locale;
}

/** A surface without a document, a window or events. */
class StillPlatform extends BasePlatform {
  override acquireContext(canvas: HTMLCanvasElement): CanvasRenderingContext2D | null {
    return canvas.getContext("2d");
  }
  override isAttached(): boolean {
    return true;
  }
}

/**
 * Draws a chart once onto anything that behaves like a canvas' context: the SVG and PDF contexts of this folder. Needs no
 * document, so it runs wherever the code does.
 */
export function drawChart(context: CanvasRenderingContext2D, specification: ChartSpecification, size: ChartSize): void {
  const canvas = { width: size.width, height: size.height, style: {}, getContext: () => context };
  // The surface is what the context draws on; Chart.js asks a context for its canvas.
  Object.defineProperty(context, "canvas", { value: canvas, configurable: true });
  const configuration = chartConfiguration(specification, size.theme, size.locale);
  const chart = new Chart(canvas as unknown as HTMLCanvasElement, {
    ...configuration,
    platform: StillPlatform,
    options: { ...configuration.options, responsive: false, devicePixelRatio: 1, events: [] },
  });
  // Without animation it is drawn as it is made.
  chart.destroy();
}
