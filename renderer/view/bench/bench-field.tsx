import { type KeyboardEvent, useEffect, useId, useRef } from "react";
import type { BenchFieldView, BenchStepView } from "../../../app/contract/index.ts";
import { FullName } from "../../component/name.tsx";
import type { BenchDesk } from "../../state/bench-desk.ts";
import { benchKey, spotId } from "../../state/bench-walk.ts";
import { isOnDisk } from "../../state/cell-desk.ts";
import { useHelp } from "../../state/help.ts";
import { useWords } from "../../state/language.tsx";
import { afterPress } from "../../state/press.ts";
import { BenchFieldTrouble } from "./bench-field-trouble.tsx";
import { BenchQuestions } from "./bench-questions.tsx";

/** One reading: a large field with its hint beside it, and what is odd or wrong with it below. */
export function BenchField({
  desk,
  step,
  field,
  onSpecimens,
}: {
  desk: BenchDesk;
  step: BenchStepView;
  field: BenchFieldView;
  /** Null where it is not a moisture. */
  onSpecimens: (() => void) | null;
}) {
  const words = useWords().bench;
  const help = useHelp();
  const id = useId();
  const draft = desk.draftOf(field);
  const text = desk.textOf(field);
  const refusal = desk.refusalOf(field);
  const isOpen = draft !== undefined && !isOnDisk(draft);
  const isSaving = draft?.status === "saving" || desk.isStamping(field);
  const { clock } = step;
  const stamps = clock !== null && clock.column === field.column && step.phase === field.phase && text === "";
  const offered = text === "" && !isOpen ? field.offered : null;
  const spot = spotId({ step: step.id, field: benchKey(field) });
  const aboutIds = ["hint", "state", "trouble", "questions"].map((part) => `${id}-${part}`).join(" ");

  // Another step may be drawn before the field has lost the focus.
  const leave = useRef(() => {});
  leave.current = () => desk.leave(field);
  const isGone = useRef(false);
  useEffect(() => {
    isGone.current = false;
    return () => {
      isGone.current = true;
      leave.current();
    };
  }, []);

  const focus = () => desk.sendTo({ step: step.id, field: benchKey(field) });
  const press = (event: KeyboardEvent) => {
    // A key that begins or ends a composed character is the writing system's own.
    if (event.nativeEvent.isComposing) return;
    if (event.key === "Enter" && !event.ctrlKey && !event.altKey && !event.metaKey) {
      event.preventDefault();
      if (event.repeat) return;
      if (event.shiftKey) desk.back(field, step);
      else desk.enter(field, step);
    } else if (event.key === "Escape") {
      event.preventDefault();
      desk.restore(field);
    } else if (event.key === "F1") {
      event.preventDefault();
      event.stopPropagation();
      help(null, field);
    }
  };

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: it is only heard here when the focus leaves the field and all that belongs to it.
    <div
      className={`bench-row is-${field.group}`}
      onBlur={(event) => {
        // The window lost the focus, not the field; or it is on what belongs to the field.
        if (document.activeElement === event.target) return;
        const isInside = event.relatedTarget instanceof Node && event.currentTarget.contains(event.relatedTarget);
        // A question that comes of it does not move what is being pressed.
        if (!isInside) afterPress(() => !isGone.current && leave.current());
      }}
    >
      <label className="bench-label" htmlFor={spot}>
        {field.name}
      </label>
      <div className="bench-cell">
        <span className={offered === null ? "bench-input" : "bench-input is-offered"}>
          <input
            id={spot}
            aria-label={words.label(field.name, field.unit)}
            value={text}
            placeholder={offered?.text ?? ""}
            readOnly={desk.isReadOnly || isSaving}
            data-typed={draft?.status === "typing" ? "yes" : undefined}
            inputMode={modes[field.group]}
            enterKeyHint="next"
            autoComplete="off"
            autoCapitalize="off"
            spellCheck={field.group === "text"}
            dir="auto"
            maxLength={10_000}
            list={field.choices === null ? undefined : `${id}-choices`}
            aria-invalid={refusal !== null}
            aria-describedby={aboutIds}
            onChange={(event) => desk.type(field, event.target.value)}
            onKeyDown={press}
            onFocus={() => desk.focusedOn(field)}
          />
          {field.unit !== null && (
            <span className="bench-unit soft" aria-hidden="true">
              {field.unit}
            </span>
          )}
        </span>
        {field.choices !== null && (
          <datalist id={`${id}-choices`}>
            {field.choices.map((choice) => (
              <option key={choice.value} value={choice.value} label={choice.label} />
            ))}
          </datalist>
        )}
        <span className="soft small bench-state" role="status" id={`${id}-state`}>
          {isSaving && words.saving}
          {!isSaving && draft?.status === "saved" && words.saved}
        </span>
      </div>
      <div className="bench-hint soft small">
        <span id={`${id}-hint`}>
          {offered !== null && (
            <span>
              <span className="visually-hidden">{words.offeredText(offered.text, field.unit)}</span>
              <FullName text={words.offered(offered.from)} />
            </span>
          )}
          {field.usual !== null && <span>{field.usual}</span>}
          {field.specimens !== null && <span>{words.specimensOf(field.specimens)}</span>}
        </span>
        <Basis desk={desk} field={field} />
        {onSpecimens !== null && !desk.isReadOnly && (
          <button type="button" className="plain" aria-keyshortcuts="Alt+P" onClick={onSpecimens}>
            {words.specimens} <kbd>{words.specimensKey}</kbd>
          </button>
        )}
      </div>
      {stamps && !desk.isReadOnly && (
        <p className="bench-stamp">
          <button type="button" className="act" onClick={() => desk.stamp(field, step)}>
            {clock.press}
          </button>
          {desk.isToday && <span className="soft small">{words.enterStamps}</span>}
        </p>
      )}
      {/* Until another field has the focus: what is below stays in its place while it is pressed. */}
      {desk.focused === benchKey(field) && (
        <p className="bench-how soft small" aria-hidden="true">
          {field.how}
        </p>
      )}
      <div id={`${id}-trouble`}>
        <BenchFieldTrouble desk={desk} field={field} />
      </div>
      <div id={`${id}-questions`}>
        <BenchQuestions questions={field.questions} onAnswered={focus} />
      </div>
      {field.phase === null && field.column === "run" && text.length > 400 && <FullName text={text} />}
    </div>
  );
}

const modes: Readonly<Record<BenchFieldView["group"], "decimal" | "numeric" | "text">> = {
  mass: "decimal",
  temperature: "decimal",
  number: "decimal",
  time: "numeric",
  date: "numeric",
  text: "text",
  choice: "text",
};

/** The same reading on its other basis: moisture as a share of the wood as it is, or of the dry wood. */
function Basis({ desk, field }: { desk: BenchDesk; field: BenchFieldView }) {
  const words = useWords().bench;
  if (field.other === null) return null;
  const isOther = desk.placeOf(field).column === field.other.column;
  return (
    <span className="pick-word">
      <select
        className="pick bench-basis"
        aria-label={words.basis}
        value={isOther ? "other" : "here"}
        disabled={desk.isReadOnly}
        onChange={(event) => desk.chooseBasis(field, event.target.value === "other")}
      >
        <option value="here">{words.wet}</option>
        <option value="other">{words.dry}</option>
      </select>
    </span>
  );
}
