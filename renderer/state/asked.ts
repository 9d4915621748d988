import { useEffect, useRef, useState } from "react";
import type { Refusal, ReplyValues, RequestKind } from "../../app/contract/index.ts";
import type { RequestOf } from "../api.ts";
import { askHost, useHost } from "./host.ts";

/** What is known of a question to the host. While a new answer is awaited the last one stays, so that the page does not jump. */
export interface Asked<K extends RequestKind> {
  readonly value: ReplyValues[K] | null;
  readonly refusal: Refusal | null;
  readonly waiting: boolean;
}

/** Asks whenever the question, the revision of the study, or the wish to try again changes; late answers are dropped. */
export function useAsked<K extends RequestKind>(message: RequestOf<K>, revision: number): Asked<K> {
  const [asked, setAsked] = useState<Asked<K>>({ value: null, refusal: null, waiting: true });
  const { attempt } = useHost();
  const key = JSON.stringify(message);
  const latest = useRef(message);
  latest.current = message;

  // biome-ignore lint/correctness/useExhaustiveDependencies: key stands for the message; revision and attempt ask again.
  useEffect(() => {
    let stale = false;
    setAsked((before) => ({ ...before, waiting: true }));
    void askHost<K>(latest.current).then((answer) => {
      if (stale) return;
      if (answer.ok) setAsked({ value: answer.value, refusal: null, waiting: false });
      else if (answer.reason === "refused" || answer.reason === "failed") {
        setAsked({ value: null, refusal: answer, waiting: false });
      } else setAsked((before) => ({ ...before, waiting: false }));
    });
    return () => {
      stale = true;
    };
  }, [key, revision, attempt]);

  return asked;
}
