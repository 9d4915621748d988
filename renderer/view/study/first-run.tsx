import { useEffect, useRef, useState } from "react";
import type { Refusal, StudyView } from "../../../app/contract/index.ts";
import { Refused } from "../../component/refused.tsx";
import { useMakeEdit } from "../../state/change.ts";
import { isRefusal } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";
import { addressOfScreen, type Route } from "../../state/route.ts";

/** A study without runs: name a variant, and begin its first run on the Bench. */
export function FirstRun({ view, route }: { view: StudyView; route: Route }) {
  const words = useWords().setUp;
  const link = useRef<HTMLAnchorElement>(null);
  const [isNamed, setIsNamed] = useState(false);
  const isAdded = isNamed && view.variants.length > 0;
  useEffect(() => {
    if (isAdded) link.current?.focus();
  }, [isAdded]);
  return (
    <section className="first-run">
      <h2>{words.firstTitle}</h2>
      <p className="prose">{words.firstLead}</p>
      {view.variants.length === 0 && view.readOnly === null && <FirstVariant onNamed={() => setIsNamed(true)} />}
      {view.variants.length > 0 && (
        <a ref={link} className="act" href={addressOfScreen(route, "bench")}>
          {words.toBench}
        </a>
      )}
    </section>
  );
}

function FirstVariant({ onNamed }: { onNamed: () => void }) {
  const words = useWords().setUp;
  const make = useMakeEdit();
  const [name, setName] = useState("");
  const [isLacking, setIsLacking] = useState(false);
  const [isBusy, setIsBusy] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const input = useRef<HTMLInputElement>(null);
  // Somebody who has just begun the study goes on here; somebody who looks at something else is left there.
  useEffect(() => {
    const focused = document.activeElement;
    if (focused === null || focused === document.body || focused.localName === "main") input.current?.focus();
  }, []);

  const add = async () => {
    const given = name.trim();
    setIsLacking(given === "");
    if (given === "" || isBusy) return;
    setIsBusy(true);
    const fields = [{ field: "name", text: given, was: "" }];
    const answer = await make({ kind: "setUp", subject: "variant", item: null, fields });
    setIsBusy(false);
    if (answer?.ok === true) onNamed();
    else setRefusal(answer !== null && isRefusal(answer) ? answer : null);
  };

  return (
    <form
      className="first-variant"
      onSubmit={(event) => {
        event.preventDefault();
        void add();
      }}
    >
      <label>
        <span>{words.firstVariant}</span>
        <input
          ref={input}
          className="field"
          autoComplete="off"
          dir="auto"
          placeholder={words.firstExample}
          maxLength={10_000}
          value={name}
          aria-invalid={isLacking && name.trim() === ""}
          onChange={(event) => setName(event.target.value)}
        />
      </label>
      <button type="submit" className="act" aria-busy={isBusy}>
        {words.firstAdd}
      </button>
      {isLacking && name.trim() === "" && (
        <p className="mark" role="alert">
          {words.firstNameNeeded}
        </p>
      )}
      {refusal !== null && <Refused refusal={refusal} />}
    </form>
  );
}
