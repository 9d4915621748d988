import { useState } from "react";
import type { FurtherEntry } from "../../../app/contract/index.ts";
import { Refused } from "../../component/refused.tsx";
import { Waiting } from "../../component/waiting.tsx";
import { useAsked } from "../../state/asked.ts";
import type { CellDesk } from "../../state/cell-desk.ts";
import { useWords } from "../../state/language.tsx";
import type { Go, Route } from "../../state/route.ts";
import { useStudy } from "../../state/study.tsx";
import { BenchBegin } from "./bench-begin.tsx";
import { BenchRun } from "./bench-run.tsx";

/** One run, step by step; where none is on the Bench, the way to one. */
export function BenchScreen({ route, go, cells }: { route: Route; go: Go; cells: CellDesk }) {
  const { handle, stamp, view: study } = useStudy();
  const words = useWords().bench;
  const { bench: run } = route;
  // What was asked for in one run is not in the next.
  const [asked, setAsked] = useState<{ run: string | null; entries: readonly FurtherEntry[] }>({ run, entries: [] });
  const entries = asked.run === run ? asked.entries : [];
  const { value, refusal, waiting } = useAsked<"bench.show">(
    handle === null ? null : { kind: "bench.show", study: handle, run, entries: [...entries] },
    stamp,
  );
  if (refusal !== null) return <Refused refusal={refusal} />;
  if (value === null || study === null || handle === null) return <Waiting />;
  if (run === null) return <BenchBegin view={value} study={study} go={go} />;
  if (value.bench?.id === run) {
    return (
      <BenchRun
        key={run}
        study={handle}
        run={value.bench}
        isNewest={!waiting}
        isReadOnly={study.readOnly !== null}
        cells={cells}
        route={route}
        go={go}
        onEntry={(entry) => setAsked({ run, entries: [...entries, entry] })}
      />
    );
  }
  if (waiting) return <Waiting />;
  return (
    <div className="bench-none">
      <p>{words.noRun}</p>
      <button type="button" className="act" onClick={() => go({ bench: null, step: null })}>
        {words.toBegin}
      </button>
    </div>
  );
}
