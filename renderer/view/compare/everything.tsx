import type { CompareView } from "../../../app/contract/index.ts";
import { ChangeStripPicture } from "../../chart/change-strip-picture.tsx";
import { Name, shortened } from "../../component/name.tsx";
import { useWords } from "../../state/language.tsx";

/** Every quantity, the chosen variant against its baseline: means, the change as a small interval, and a verdict in words. */
export function Everything({ view, onShow }: { view: CompareView; onShow: (quantity: string) => void }) {
  const { compare: words, dash } = useWords();
  const { variant, baseline } = view.choice;
  return (
    <div>
      <h2 id="everything-title" dir="auto">
        {words.everything(shortened(variant), shortened(baseline))}
      </h2>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard. */}
      <section className="wide" tabIndex={0} aria-labelledby="everything-title">
        <table className="everything" aria-labelledby="everything-title">
          <thead>
            <tr>
              <th scope="col">{words.quantityColumn}</th>
              <th scope="col" className="n">
                <Name text={baseline} />
              </th>
              <th scope="col" className="n">
                <Name text={variant} />
              </th>
              <th scope="col" className="strip-column">
                {words.change}
              </th>
              <th scope="col">{words.verdict}</th>
            </tr>
          </thead>
          <tbody>
            {view.everything.map((row) => (
              <tr key={row.key} aria-current={row.key === view.choice.quantity ? "true" : undefined}>
                <th scope="row">
                  <button type="button" className="plain" title={words.show} onClick={() => onShow(row.key)}>
                    {row.label}
                  </button>
                  {row.formulaOnly && (
                    <i className="soft small formula-only" title={words.formulaOnlyMeaning}>
                      {words.formulaOnly}
                    </i>
                  )}
                </th>
                <td className="n">{row.baseline || dash}</td>
                <td className="n">{row.variant || dash}</td>
                <td className="strip-column">
                  {row.strip === null ? <span className="soft">{dash}</span> : <ChangeStripPicture strip={row.strip} />}
                </td>
                <td className={row.tone === "sure" ? "verdict-sure" : "soft"}>{row.verdict}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </div>
  );
}
