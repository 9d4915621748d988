import type { CompareView } from "../../../app/contract/index.ts";
import { ChangeStripPicture } from "../../chart/change-strip-picture.tsx";
import { Name, shortened } from "../../component/name.tsx";
import { useWords } from "../../state/language.tsx";
import { phaseOfKey } from "./quantity-key.ts";

type Row = CompareView["everything"][number];

interface Part {
  readonly key: string;
  readonly title: string;
  readonly rows: readonly Row[];
}

/** Every quantity, the chosen variant against its baseline. The whole run stands open; phases and the other method's formulas unfold. */
export function Everything({ view, onShow }: { view: CompareView; onShow: (quantity: string) => void }) {
  const { compare: words, phase: phaseName } = useWords();
  const { variant, baseline, quantity } = view.choice;
  const own = view.everything.filter((row) => !row.formulaOnly);
  const phases = [...new Set(own.map((row) => phaseOfKey(row.key)))];
  const parts: Part[] = [
    ...phases.map((phase) => ({
      key: phase ?? "",
      title: phase === null ? words.wholeRun : phaseName(phase),
      rows: own.filter((row) => phaseOfKey(row.key) === phase),
    })),
    { key: "formula-only", title: words.otherMethod, rows: view.everything.filter((row) => row.formulaOnly) },
  ].filter((part) => part.rows.length > 0);
  const [first, ...others] = parts;
  return (
    <div>
      <h2 dir="auto">{words.everything(shortened(variant), shortened(baseline))}</h2>
      {first !== undefined && <PartTable part={first} view={view} onShow={onShow} />}
      {others.map((part) => (
        <details
          key={part.key}
          className="everything-part"
          open={part.rows.some((row) => row.key === quantity) || undefined}
        >
          <summary>
            {part.title} <span className="soft small">{words.quantities(part.rows.length)}</span>
          </summary>
          {part.key === "formula-only" && <p className="soft">{words.formulaOnlyMeaning}</p>}
          <PartTable part={part} view={view} onShow={onShow} />
        </details>
      ))}
    </div>
  );
}

function PartTable({ part, view, onShow }: { part: Part; view: CompareView; onShow: (quantity: string) => void }) {
  const { compare: words, dash } = useWords();
  const { variant, baseline, quantity } = view.choice;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard.
    <section className="wide" tabIndex={0} aria-label={part.title}>
      <table className="everything" aria-label={part.title}>
        <thead>
          <tr>
            <th scope="col" className="quantity-column">
              {words.quantityColumn}
            </th>
            <th scope="col" className="n mean-column">
              <Name text={baseline} />
            </th>
            <th scope="col" className="n mean-column">
              <Name text={variant} />
            </th>
            <th scope="col" className="strip-column">
              {words.change}
            </th>
            <th scope="col">{words.verdict}</th>
          </tr>
        </thead>
        <tbody>
          {part.rows.map((row) => (
            <tr key={row.key} aria-current={row.key === quantity ? "true" : undefined}>
              <th scope="row">
                <button type="button" className="plain" title={words.show} onClick={() => onShow(row.key)}>
                  {row.label}
                </button>
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
  );
}
