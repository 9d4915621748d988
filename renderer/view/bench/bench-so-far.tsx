import type { BenchRunView } from "../../../app/contract/index.ts";
import { FullName } from "../../component/name.tsx";
import { useWords } from "../../state/language.tsx";

/** Results as far as they go; those that wait for a reading say for which. */
export function BenchSoFar({ run, title }: { run: BenchRunView; title: string }) {
  const words = useWords().bench;
  const isNothing = run.soFar.every(({ results }) => results.length === 0);
  return (
    <section className="bench-so-far" aria-label={title}>
      <h2>{title}</h2>
      {isNothing && <p className="soft small">{words.soFarNothing}</p>}
      {run.soFar.map((part) => (
        <table key={part.title}>
          <caption className="small soft">{part.title}</caption>
          <thead className="visually-hidden">
            <tr>
              <th scope="col">{words.result}</th>
              <th scope="col">{words.value}</th>
            </tr>
          </thead>
          <tbody>
            {part.results.map((result) => (
              <tr key={result.label} className={result.text === null ? "soft" : ""}>
                <th scope="row">{result.label}</th>
                <td className="bench-value">
                  {result.text ?? (result.because === null ? null : <FullName text={result.because} />)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      ))}
    </section>
  );
}
