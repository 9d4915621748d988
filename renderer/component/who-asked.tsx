import { type ReactNode, useCallback, useEffect, useMemo, useRef, useState } from "react";
import { useWords } from "../state/language.tsx";
import { useStudy } from "../state/study.tsx";
import { type AskWho, AskWhoContext, chooseWho, proposedWho, whoIsWriting } from "../state/who.ts";
import { Dialog } from "./dialog.tsx";
import { WhoField } from "./who-field.tsx";

/** Asks who is writing before the first change goes on; what was typed for that change waits where it is. */
export function WhoAsked({ children }: { children: ReactNode }) {
  const [isAsking, setIsAsking] = useState(false);
  const waiting = useRef<((name: string | null) => void)[]>([]);

  const change = useCallback(
    () =>
      new Promise<string | null>((resolve) => {
        waiting.current.push(resolve);
        setIsAsking(true);
      }),
    [],
  );
  const ask = useCallback(() => {
    const name = whoIsWriting();
    return name === null ? change() : Promise.resolve(name);
  }, [change]);
  const asks = useMemo<AskWho>(() => ({ ask, change }), [ask, change]);

  const answer = (name: string | null) => {
    if (name !== null) chooseWho(name);
    setIsAsking(false);
    for (const resolve of waiting.current.splice(0)) resolve(name);
  };

  return (
    <AskWhoContext value={asks}>
      {children}
      {isAsking && <WhoDialog onAnswer={answer} />}
    </AskWhoContext>
  );
}

function WhoDialog({ onAnswer }: { onAnswer: (name: string | null) => void }) {
  const words = useWords().studies;
  const { view, tell } = useStudy();
  const [name, setName] = useState(proposedWho);
  const [isLacking, setIsLacking] = useState(false);
  const form = useRef<HTMLFormElement>(null);
  // Another name is typed over the one that stands there.
  useEffect(() => form.current?.querySelector("input")?.select(), []);
  return (
    <Dialog className="ask" label={words.who} onClose={() => onAnswer(null)}>
      <h2>{words.who}</h2>
      <form
        ref={form}
        onSubmit={(event) => {
          event.preventDefault();
          const given = name.trim();
          setIsLacking(given === "");
          if (given === "") return;
          tell(words.whoNow(given));
          onAnswer(given);
        }}
      >
        <WhoField
          value={name}
          names={view?.names ?? []}
          isLacking={isLacking && name.trim() === ""}
          onChange={setName}
        />
        <div className="acts">
          <button type="submit" className="act">
            {words.whoTake}
          </button>
          <button type="button" className="act quiet" onClick={() => onAnswer(null)}>
            {words.whoCancel}
          </button>
        </div>
      </form>
    </Dialog>
  );
}
