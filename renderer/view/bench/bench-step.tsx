import { useState } from "react";
import type { BenchFieldView, BenchStepView, FurtherEntry } from "../../../app/contract/index.ts";
import type { BenchDesk } from "../../state/bench-desk.ts";
import { benchKey, finishStep } from "../../state/bench-walk.ts";
import { useWords } from "../../state/language.tsx";
import { BenchField } from "./bench-field.tsx";
import { BenchSpecimens } from "./bench-specimens.tsx";

const isMoisture = (field: BenchFieldView) => /moisture_(wet|dry)_percent$/.test(field.column) && field.phase !== null;

/** The one step that is done now: its fields, those that are folded away, and what can be added. */
export function BenchStep({
  desk,
  step,
  onEntry,
}: {
  desk: BenchDesk;
  step: BenchStepView;
  onEntry: (entry: FurtherEntry) => void;
}) {
  const all = useWords();
  const words = all.bench;
  const [specimensOf, setSpecimensOf] = useState<string | null>(null);
  const { shown, folded } = desk.partsOf(step);
  const isUnfolded = desk.isUnfolded(step.id);
  const steps = desk.run.steps;
  const next = steps[steps.findIndex(({ id }) => id === step.id) + 1];
  const fieldOf = (field: BenchFieldView) => (
    <div key={benchKey(field)}>
      <BenchField
        desk={desk}
        step={step}
        field={field}
        onSpecimens={isMoisture(field) ? () => setSpecimensOf(specimensOf === null ? benchKey(field) : null) : null}
      />
      {specimensOf === benchKey(field) && (
        <BenchSpecimens
          desk={desk}
          field={field}
          onClose={(isTaken) => {
            setSpecimensOf(null);
            const key = benchKey(field);
            if (isTaken) desk.sendOn(field, step);
            else desk.sendTo({ step: step.id, field: key });
          }}
        />
      )}
    </div>
  );
  return (
    <section className="bench-step" aria-labelledby="bench-step-title">
      <h1 id="bench-step-title">{step.title}</h1>
      <p className="soft bench-sentence">{step.sentence}</p>
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out in columns with its parts. */}
      <div role="group" aria-labelledby="bench-step-title" className="bench-fields">
        {shown.map(fieldOf)}
      </div>
      {(folded.length > 0 || isUnfolded) && (
        <div className="bench-more">
          <button
            type="button"
            className="plain"
            aria-expanded={isUnfolded}
            aria-keyshortcuts="Alt+M"
            onClick={() => desk.fold(step.id, !isUnfolded)}
          >
            {isUnfolded
              ? words.less
              : words.moreFields(folded.map(({ name }) => name.toLowerCase()).join(all.separator))}{" "}
            <kbd>{words.moreKey}</kbd>
          </button>
        </div>
      )}
      {step.nextEntry !== null && step.phase !== null && !desk.isReadOnly && (
        <p className="bench-add">
          <button
            type="button"
            className="plain"
            aria-keyshortcuts="Alt+W"
            title={words.addWoodLong}
            data-bench-key="KeyW"
            onClick={() =>
              step.phase !== null && step.nextEntry !== null && onEntry({ phase: step.phase, entry: step.nextEntry })
            }
          >
            {words.addWoodLong} <kbd>{words.addWoodKey}</kbd>
          </button>
        </p>
      )}
      <p className="bench-go">
        <button type="button" className="act" onClick={() => desk.openStep(next?.id ?? finishStep)}>
          {words.goOn(next?.title ?? words.finish)}
        </button>
      </p>
      <p className="bench-keys soft small">
        {words.keys.map(([key, meaning]) => (
          <span key={key}>
            <kbd>{key}</kbd> {meaning}
          </span>
        ))}
        <span>{words.savedAsLeft}</span>
      </p>
    </section>
  );
}
