import type { BudgetText } from "../../core/index.ts";
import { ChartPicture } from "../chart/chart-picture.tsx";
import { useWords } from "../state/language.tsx";
import { FullName, shortened } from "./name.tsx";

/**
 * What an uncertainty is made of: the value with its interval, the parts as a picture and as a table, what is not in it. `title`: of what,
 * where there are several on the page.
 */
export function Budget({ budget, title = null }: { budget: BudgetText; title?: string | null }) {
  const words = useWords().uncertainty;
  return (
    <>
      <p className="budget-value">
        <span className="voice">{budget.value}</span> {budget.unit}{" "}
        {budget.chart !== null && <span className="soft small">{budget.coverage}</span>}
      </p>
      {budget.chart !== null && <ChartPicture chart={budget.chart} />}
      {budget.rows.length > 0 && (
        <BudgetTable budget={budget} name={title === null ? words.table : words.tableOf(shortened(title))} />
      )}
      {budget.notes.map((note) => (
        <p className="soft small prose" key={note}>
          <FullName text={note} />
        </p>
      ))}
      {budget.chart === null && budget.notes.length === 0 && <p className="soft">{words.noBudget}</p>}
    </>
  );
}

function BudgetTable({ budget, name }: { budget: BudgetText; name: string }) {
  const words = useWords().uncertainty;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard.
    <section className="wide" tabIndex={0} aria-label={name}>
      <table className="budget-table" aria-label={name}>
        <thead>
          <tr>
            <th scope="col">{words.source}</th>
            <th scope="col" className="n">
              {words.share}
            </th>
            <th scope="col" className="n">
              {words.alone}
            </th>
            <th scope="col" className="n">
              {words.halved}
            </th>
          </tr>
        </thead>
        <tbody>
          {budget.rows.map((row) => (
            <tr key={row.name}>
              <th scope="row">
                <FullName text={row.name} />
                <div className="soft small">
                  <FullName text={row.detail} />
                </div>
              </th>
              <td className="n">{row.share}</td>
              <td className="n">{row.alone}</td>
              <td className="n">{row.whenHalved}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
