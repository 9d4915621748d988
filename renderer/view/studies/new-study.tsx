import { type RefObject, useState } from "react";
import type { Refusal } from "../../../app/contract/index.ts";
import type { Method } from "../../../core/index.ts";
import { shortened } from "../../component/name.tsx";
import { Refused } from "../../component/refused.tsx";
import { askHost, isRefusal } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";
import { useStudy } from "../../state/study.tsx";
import { whoIsWriting } from "../../state/who.ts";

const methods: readonly Method[] = ["wbt", "iso"];

/** Begins a study: a name and a method. */
export function NewStudy({
  isNamed,
  input,
}: {
  isNamed: () => boolean;
  /** Its name's field, so that the focus can be sent there. */
  input: RefObject<HTMLInputElement | null>;
}) {
  const { studies: words, study } = useWords();
  const { opened } = useStudy();
  const [name, setName] = useState("");
  const [method, setMethod] = useState<Method>("wbt");
  const [isLacking, setIsLacking] = useState(false);
  const [isBusy, setIsBusy] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);

  const begin = async () => {
    const given = name.trim();
    setIsLacking(given === "");
    if (given === "") {
      input.current?.focus();
      return;
    }
    if (!isNamed() || isBusy) return;
    const who = whoIsWriting();
    if (who === null) return;
    setIsBusy(true);
    setRefusal(null);
    const answer = await askHost<"study.create">({ kind: "study.create", name: given, method, who });
    setIsBusy(false);
    if (answer.ok) opened(answer.value, words.created(shortened(answer.value.name, 120)));
    else if (isRefusal(answer)) setRefusal(answer);
  };

  return (
    <section>
      <h2>{words.newTitle}</h2>
      <form
        className="new-study"
        onSubmit={(event) => {
          event.preventDefault();
          void begin();
        }}
      >
        <label>
          <span>{words.newName}</span>
          <input
            ref={input}
            className="field"
            autoComplete="off"
            dir="auto"
            maxLength={10_000}
            value={name}
            aria-invalid={isLacking && name.trim() === ""}
            onChange={(event) => setName(event.target.value)}
          />
        </label>
        {isLacking && name.trim() === "" && (
          <p className="mark" role="alert">
            {words.nameNeeded}
          </p>
        )}
        <fieldset className="where-to">
          <legend>{words.method}</legend>
          {methods.map((one) => (
            <label className="choice" key={one}>
              <input type="radio" name="method" checked={one === method} onChange={() => setMethod(one)} />
              <span>{study.method[one]}</span>
            </label>
          ))}
        </fieldset>
        <button type="submit" className="act" aria-busy={isBusy}>
          {words.begin}
        </button>
        {refusal !== null && <Refused refusal={refusal} />}
      </form>
    </section>
  );
}
