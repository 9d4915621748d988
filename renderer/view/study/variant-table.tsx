import type { VariantView } from "../../../app/contract/index.ts";
import { FullName } from "../../component/name.tsx";
import { VariantMark } from "../../component/variant-mark.tsx";
import { useWords } from "../../state/language.tsx";

/** Which variants there are, how they differ, and how often each was run. */
export function VariantTable({ variants }: { variants: readonly VariantView[] }) {
  const { study, dash } = useWords();
  const hasUnfinished = variants.some(({ onBench }) => onBench > 0);
  const factors = [...new Set(variants.flatMap((variant) => variant.factors.map((factor) => factor.factor)))];
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard.
    <section className="wide" tabIndex={0} aria-label={study.variants}>
      <table>
        <caption>{study.variants}</caption>
        <thead>
          <tr>
            <th scope="col">{study.variant}</th>
            {factors.map((factor) => (
              <th scope="col" key={factor}>
                <FullName text={factor} />
              </th>
            ))}
            <th scope="col" className="n">
              {study.runsUsed}
            </th>
            <th scope="col" className="n">
              {study.leftOut}
            </th>
            {hasUnfinished && (
              <th scope="col" className="n">
                {study.onBench}
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          {variants.map((variant) => (
            <tr key={variant.name}>
              <th scope="row">
                <span className="variant-name">
                  <VariantMark index={variant.index} />
                  <FullName text={variant.name} />
                </span>
              </th>
              {factors.map((factor) => (
                <td key={factor}>
                  <FullName text={variant.factors.find((one) => one.factor === factor)?.level ?? dash} />
                </td>
              ))}
              <td className="n">
                {variant.runs === 0 ? study.planned : variant.runs - variant.leftOut - variant.onBench}
              </td>
              <td className="n">{variant.leftOut === 0 ? dash : variant.leftOut}</td>
              {hasUnfinished && <td className="n">{variant.onBench === 0 ? dash : variant.onBench}</td>}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
