import type { CompareView } from "../../../app/contract/index.ts";
import { Name } from "../../component/name.tsx";
import { VariantName } from "../../component/variant-mark.tsx";
import { useWords } from "../../state/language.tsx";

/** The chart's numbers: every run of every variant, with mean, interval and scatter. */
export function ChartTable({ view }: { view: CompareView }) {
  const { study, compare: words, dash } = useWords();
  const indexOf = (name: string) => view.variants.find((variant) => variant.name === name)?.index ?? 0;
  return (
    <details className="chart-table">
      <summary>{words.chartTable}</summary>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard. */}
      <section className="wide" tabIndex={0} aria-label={words.chartTable}>
        <table>
          <caption className="visually-hidden">{view.chart.valueTitle}</caption>
          <thead>
            <tr>
              <th scope="col">{study.variant}</th>
              <th scope="col">{words.run}</th>
              <th scope="col" className="n">
                {words.mean}
              </th>
              <th scope="col" className="n">
                {words.interval}
              </th>
              <th scope="col" className="n">
                {words.standardDeviation}
              </th>
              <th scope="col" className="n">
                {words.coefficientOfVariation}
              </th>
              <th scope="col" className="n">
                {words.change}
              </th>
            </tr>
          </thead>
          <tbody>
            {view.chartTable.map((row) => (
              <tr key={row.variant}>
                <th scope="row">
                  <VariantName index={indexOf(row.variant)} name={row.variant} />
                </th>
                <td>
                  <ul className="run-values">
                    {row.runs.map((run) => (
                      <li key={run.name} className={run.leftOut ? "run-left-out" : ""}>
                        <Name text={run.name} className="soft" /> <span>{run.text}</span>
                        {run.leftOut && <span className="soft small"> {words.leftOut}</span>}
                      </li>
                    ))}
                  </ul>
                </td>
                <td className="n">{row.mean || dash}</td>
                <td className="n">{row.interval || dash}</td>
                <td className="n">{row.standardDeviation || dash}</td>
                <td className="n">{row.coefficientOfVariation || dash}</td>
                <td className="n">{row.change || dash}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </details>
  );
}
