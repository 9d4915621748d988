import { useEffect, useRef } from "react";
import type { BenchRunView, FurtherEntry } from "../../../app/contract/index.ts";
import { useBenchDesk } from "../../state/bench-desk.ts";
import { benchKey } from "../../state/bench-walk.ts";
import type { CellDesk } from "../../state/cell-desk.ts";
import { useWords } from "../../state/language.tsx";
import { addressOf, type Go, type Route } from "../../state/route.ts";
import { BenchClock } from "./bench-clock.tsx";
import { BenchEnded } from "./bench-ended.tsx";
import { BenchFinish } from "./bench-finish.tsx";
import { BenchSoFar } from "./bench-so-far.tsx";
import { BenchStep } from "./bench-step.tsx";
import { BenchSteps } from "./bench-steps.tsx";
import { BenchTold } from "./bench-told.tsx";

interface BenchRunProps {
  study: string;
  run: BenchRunView;
  isNewest: boolean;
  isReadOnly: boolean;
  cells: CellDesk;
  route: Route;
  go: Go;
  onEntry: (entry: FurtherEntry) => void;
}

/** One run on the Bench: its steps at the left, the one that is done now in the middle, clock and results at the right. */
export function BenchRun(props: BenchRunProps) {
  const { run } = props;
  if (run.state === "open") return <OpenRun {...props} />;
  return (
    <div className="bench is-ended">
      <BenchEnded run={run} isReadOnly={props.isReadOnly} go={props.go} />
    </div>
  );
}

function OpenRun({ onEntry, ...props }: BenchRunProps) {
  const words = useWords().bench;
  const desk = useBenchDesk(props);
  const { run } = desk;
  const step = run.steps.find(({ id }) => id === desk.step);
  const page = useRef<HTMLDivElement>(null);
  useBenchKeys(page);
  const others = addressOf({ ...props.route, bench: null, step: null });

  // The fields of an entry that was asked for have come.
  const wanted = useRef<FurtherEntry | null>(null);
  useEffect(() => {
    const entry = wanted.current;
    if (entry === null) return;
    const here = run.steps.filter(
      ({ phase, fields }) => phase === entry.phase && fields.some((field) => field.entry === entry.entry),
    );
    const of = here.find(({ id }) => id === desk.step) ?? here[0];
    const field = of?.fields.find((one) => one.entry === entry.entry);
    if (of === undefined || field === undefined) return;
    wanted.current = null;
    if (field.isPassed) desk.fold(of.id, true);
    desk.sendTo({ step: of.id, field: benchKey(field) });
  });

  return (
    <div className="bench" ref={page}>
      <BenchSteps desk={desk} others={others} />
      <BenchClock study={props.study} run={run} />
      <div className="bench-middle">
        {desk.isReadOnly && <p className="mark">{words.readOnly}</p>}
        <BenchTold desk={desk} />
        {step === undefined ? (
          <BenchFinish desk={desk} others={others} />
        ) : (
          <BenchStep
            key={step.id}
            desk={desk}
            step={step}
            onEntry={(entry) => {
              wanted.current = entry;
              onEntry(entry);
            }}
          />
        )}
      </div>
      <div className="bench-side">
        <BenchSoFar run={run} title={words.soFar} />
        <p className="bench-care small soft">
          <b>{words.care}</b> {words.careText}
        </p>
      </div>
    </div>
  );
}

/**
 * Keys of the Bench: each presses the button that it stands beside, which is always there too. Alt with a letter by its place on
 * the keyboard; what a system writes with it (AltGr) stays its own.
 */
function useBenchKeys(page: { readonly current: HTMLElement | null }): void {
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (!event.altKey || event.ctrlKey || event.metaKey || event.shiftKey || event.getModifierState("AltGraph"))
        return;
      const letter = /^Key([MPW])$/.exec(event.code)?.[1];
      if (letter === undefined || document.querySelector("dialog[open]") !== null) return;
      const buttons = [...(page.current?.querySelectorAll<HTMLElement>(`[aria-keyshortcuts="Alt+${letter}"]`) ?? [])];
      const near = document.activeElement
        ?.closest(".bench-row")
        ?.querySelector<HTMLElement>(`[aria-keyshortcuts="Alt+${letter}"]`);
      const button = near ?? buttons[0];
      if (button === undefined) return;
      event.preventDefault();
      if (!event.repeat) button.click();
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  }, [page]);
}
