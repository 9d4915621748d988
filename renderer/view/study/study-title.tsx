import { useEffect, useRef, useState } from "react";
import type { Refusal, StudyView } from "../../../app/contract/index.ts";
import { FullName } from "../../component/name.tsx";
import { Refused } from "../../component/refused.tsx";
import { useMakeEdit } from "../../state/change.ts";
import { isRefusal } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";

/** The study's name, which is changed in place: Enter keeps, Escape takes back. */
export function StudyTitle({ view }: { view: StudyView }) {
  const { changes: words, studies } = useWords();
  const make = useMakeEdit();
  const [name, setName] = useState<string | null>(null);
  const [isLacking, setIsLacking] = useState(false);
  const [isBusy, setIsBusy] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const input = useRef<HTMLInputElement>(null);
  const opener = useRef<HTMLButtonElement>(null);
  const isRenaming = name !== null;

  useEffect(() => {
    if (isRenaming) input.current?.select();
  }, [isRenaming]);

  const close = () => {
    setName(null);
    setRefusal(null);
    setIsLacking(false);
    setTimeout(() => opener.current?.focus());
  };
  const keep = async () => {
    const given = name?.trim() ?? "";
    setIsLacking(given === "");
    if (given === "" || isBusy) return;
    if (given === view.name) {
      close();
      return;
    }
    setIsBusy(true);
    const answer = await make({ kind: "renameStudy", name: given });
    setIsBusy(false);
    if (answer?.ok === true) close();
    else if (answer !== null && isRefusal(answer)) setRefusal(answer);
  };

  if (name === null) {
    return (
      <div className="study-title">
        <h1>
          <FullName text={view.name} />
        </h1>
        {view.readOnly === null && (
          <button ref={opener} type="button" className="plain small" onClick={() => setName(view.name)}>
            {words.rename}
          </button>
        )}
      </div>
    );
  }
  return (
    <form
      className="study-title"
      onSubmit={(event) => {
        event.preventDefault();
        void keep();
      }}
      onKeyDown={(event) => {
        if (event.key !== "Escape") return;
        event.preventDefault();
        close();
      }}
    >
      <h1 className="visually-hidden">{view.name}</h1>
      <input
        ref={input}
        className="field voice title-field"
        aria-label={words.renameLabel}
        aria-invalid={isLacking && name.trim() === ""}
        autoComplete="off"
        dir="auto"
        maxLength={10_000}
        value={name}
        onChange={(event) => setName(event.target.value)}
      />
      <div className="acts">
        <button type="submit" className="act" aria-busy={isBusy}>
          {words.save}
        </button>
        <button type="button" className="plain" onClick={close}>
          {words.cancel}
        </button>
      </div>
      {isLacking && name.trim() === "" && (
        <p className="mark" role="alert">
          {studies.nameNeeded}
        </p>
      )}
      {refusal !== null && <Refused refusal={refusal} />}
    </form>
  );
}
