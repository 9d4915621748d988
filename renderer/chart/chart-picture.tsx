import { Chart } from "chart.js";
import { useEffect, useRef } from "react";
import { chartConfiguration, chartHeight, darkTheme, lightTheme } from "../../app/chart/index.ts";
import type { BudgetChart, RunsAndChangeChart } from "../../core/index.ts";
import { useLocale } from "../state/language.tsx";
import { useIsDark } from "../state/theme.ts";

/** A comparison (every run a point, means with intervals, changes on an axis of their own) or a budget as a picture. Its words are its label. */
export function ChartPicture({ chart }: { chart: RunsAndChangeChart | BudgetChart }) {
  const locale = useLocale();
  const isDark = useIsDark();
  const box = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);

  useEffect(() => {
    const frame = box.current;
    const surface = canvas.current;
    if (frame === null || surface === null) return;
    const setHeight = () => {
      const height = `${Math.ceil(chartHeight(chart, frame.clientWidth))}px`;
      if (frame.style.height !== height) frame.style.height = height;
    };
    setHeight();
    const picture = new Chart(surface, chartConfiguration(chart, isDark ? darkTheme : lightTheme, locale));
    const widthWatch = new ResizeObserver(setHeight);
    widthWatch.observe(frame);
    let isGone = false;
    // Texts are measured in the page's own font, which may come after the picture.
    void document.fonts.ready.then(() => {
      if (!isGone) picture.update();
    });
    return () => {
      isGone = true;
      widthWatch.disconnect();
      picture.destroy();
    };
  }, [chart, isDark, locale]);

  return (
    <div className="chart-picture" ref={box}>
      <canvas ref={canvas} role="img" aria-label={chart.textAlternative} />
    </div>
  );
}
