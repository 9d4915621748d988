import { useEffect, useId, useRef, useState } from "react";
import type { Edit, Refusal } from "../../app/contract/index.ts";
import { useMakeEdit } from "../state/change.ts";
import { isRefusal } from "../state/host.ts";
import { Refused } from "./refused.tsx";

interface ReasonWords {
  /** On the button that opens the form. */
  readonly open: string;
  /** The same with what it is about, for a screen reader where there are several. */
  readonly openAt?: string;
  readonly reason: string;
  /** Which keys do what, under the field. */
  readonly keys?: string;
  /** Where no reason is given. */
  readonly reasonNeeded: string;
  readonly send: string;
  readonly cancel: string;
}

/**
 * An edit that needs a reason: a button that opens a field in its place. Enter sends, Escape closes and the button has the focus again;
 * where the edit was not made, what was typed waits.
 */
export function ReasonForm({
  words,
  edit,
  onDone,
}: {
  words: ReasonWords;
  edit: (reason: string) => Edit;
  /** The edit is on disk: whoever shows the form says where the focus goes. */
  onDone?: () => void;
}) {
  const make = useMakeEdit();
  const [reason, setReason] = useState<string | null>(null);
  const [isLacking, setIsLacking] = useState(false);
  const [isBusy, setIsBusy] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const input = useRef<HTMLInputElement>(null);
  const opener = useRef<HTMLButtonElement>(null);
  const id = useId();
  const isAsking = reason !== null;
  const lacks = isLacking && (reason ?? "").trim() === "";

  useEffect(() => {
    if (isAsking) input.current?.focus();
  }, [isAsking]);

  const close = () => {
    setReason(null);
    setRefusal(null);
    setIsLacking(false);
    setTimeout(() => opener.current?.focus());
  };
  const send = async () => {
    const given = reason?.trim() ?? "";
    setIsLacking(given === "");
    if (given === "" || isBusy) {
      input.current?.focus();
      return;
    }
    setIsBusy(true);
    setRefusal(null);
    const answer = await make(edit(given));
    setIsBusy(false);
    if (answer?.ok === true) {
      setReason(null);
      onDone?.();
      return;
    }
    if (answer !== null && isRefusal(answer)) setRefusal(answer);
    // Nobody was named, or the host does not answer.
    else input.current?.focus();
  };

  if (reason === null) {
    return (
      <button ref={opener} type="button" className="act quiet" aria-label={words.openAt} onClick={() => setReason("")}>
        {words.open}
      </button>
    );
  }
  return (
    <>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void send();
        }}
        onKeyDown={(event) => {
          if (event.key !== "Escape") return;
          event.preventDefault();
          event.stopPropagation();
          close();
        }}
      >
        <label>
          <span>{words.reason}</span>
          <input
            ref={input}
            className="field"
            autoComplete="off"
            dir="auto"
            maxLength={10_000}
            value={reason}
            aria-invalid={lacks}
            aria-describedby={words.keys === undefined ? `${id}-lack` : `${id}-lack ${id}-keys`}
            onChange={(event) => setReason(event.target.value)}
          />
        </label>
        {words.keys !== undefined && (
          <p className="soft small" id={`${id}-keys`}>
            {words.keys}
          </p>
        )}
        <p id={`${id}-lack`} role="status">
          {lacks ? words.reasonNeeded : ""}
        </p>
        <div className="acts">
          <button type="submit" className="act quiet" aria-busy={isBusy}>
            {words.send}
          </button>
          <button type="button" className="plain" onClick={close}>
            {words.cancel}
          </button>
        </div>
      </form>
      {refusal !== null && <Refused refusal={refusal} />}
    </>
  );
}
