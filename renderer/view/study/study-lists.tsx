import type { StudyView } from "../../../app/contract/index.ts";
import { FullName } from "../../component/name.tsx";
import { useWords } from "../../state/language.tsx";
import { addressOfRun, type Route } from "../../state/route.ts";

/** Fuels, or settings: a name and what is said of it. */
export function NamedDetails({
  title,
  items,
  none,
}: {
  title: string;
  items: readonly { readonly name: string; readonly detail: string }[];
  none?: string;
}) {
  if (items.length === 0 && none === undefined) return null;
  return (
    <section>
      <h2>{title}</h2>
      {items.length === 0 && <p className="soft">{none}</p>}
      <dl className="lines">
        {items.map((item) => (
          <div key={item.name}>
            <dt>
              <b>
                <FullName text={item.name} />
              </b>
            </dt>
            <dd className="soft">{item.detail}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

/** Runs that are not finished yet, each with the way to it. */
export function OnBench({ view, route }: { view: StudyView; route: Route }) {
  const words = useWords().study;
  if (view.onBench.length === 0) return null;
  return (
    <section>
      <h2>{words.onBenchTitle}</h2>
      <p className="soft">{words.onBenchLead}</p>
      <ul className="lines">
        {view.onBench.map(({ id, run }) => (
          <li key={id}>
            <a href={addressOfRun(route, id)}>
              <FullName text={run} />
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Runs and rows that do not count, each with its reason. */
export function LeftOut({ view }: { view: StudyView }) {
  const words = useWords().study;
  if (view.runs === 0 && view.leftOutRows.length === 0) return null;
  return (
    <>
      <section>
        <h2>{words.leftOutRuns}</h2>
        {view.leftOutRuns.length === 0 && <p className="soft">{words.noLeftOutRuns}</p>}
        <dl className="lines">
          {view.leftOutRuns.map(({ run, reason }) => (
            <div key={run}>
              <dt>
                <b>
                  <FullName text={run} />
                </b>
              </dt>
              <dd>
                <FullName text={reason} />
              </dd>
            </div>
          ))}
        </dl>
      </section>
      {view.leftOutRows.length > 0 && (
        <section>
          <h2>{words.leftOutRows}</h2>
          <dl className="lines">
            {view.leftOutRows.map(({ file, row, reasons }) => (
              <div key={`${file}:${row}`}>
                <dt>
                  <b>{words.row(row, file)}</b>
                </dt>
                {reasons.map((reason) => (
                  <dd key={reason}>
                    <FullName text={reason} />
                  </dd>
                ))}
              </div>
            ))}
          </dl>
        </section>
      )}
    </>
  );
}
