import { useEffect, useRef, useState } from "react";
import type { Refusal, ReplyValues, RequestKind } from "../../app/contract/index.ts";
import type { RequestOf } from "../api.ts";
import { askHost, isRefusal, useHost } from "./host.ts";

/** What is known of a question to the host. While a new answer is awaited the last one stays, so that the page does not jump. */
export interface Asked<K extends RequestKind> {
  readonly value: ReplyValues[K] | null;
  readonly refusal: Refusal | null;
  readonly waiting: boolean;
}

interface Wanted<K extends RequestKind> {
  readonly message: RequestOf<K>;
  readonly key: string;
}

/**
 * Asks whenever the question, the stamp of the study, or the wish to try again changes; null asks nothing. The same question
 * is never asked twice at once: what changes meanwhile is asked after. Late answers to another question are dropped.
 */
export function useAsked<K extends RequestKind>(message: RequestOf<K> | null, stamp: string): Asked<K> {
  const [asked, setAsked] = useState<Asked<K>>({ value: null, refusal: null, waiting: true });
  const { attempt } = useHost();
  const key = message === null ? null : JSON.stringify(message);
  const latest = useRef(message);
  latest.current = message;
  const wanted = useRef<Wanted<K> | null>(null);
  const underWay = useRef<string | null>(null);

  // biome-ignore lint/correctness/useExhaustiveDependencies: key stands for the message; stamp and attempt ask again.
  useEffect(() => {
    wanted.current = latest.current === null || key === null ? null : { message: latest.current, key };
    if (wanted.current === null) return;
    setAsked((before) => ({ ...before, waiting: true }));
    if (underWay.current !== key) void pump();

    async function pump(): Promise<void> {
      for (;;) {
        const mine = wanted.current;
        if (mine === null) break;
        underWay.current = mine.key;
        const answer = await askHost<K>(mine.message);
        // Another question took over, and has its own answer to wait for.
        if (underWay.current !== mine.key) return;
        const isLast = wanted.current === mine;
        if (wanted.current?.key === mine.key) {
          if (answer.ok) setAsked({ value: answer.value, refusal: null, waiting: !isLast });
          else if (isRefusal(answer)) setAsked({ value: null, refusal: answer, waiting: !isLast });
          else setAsked((before) => ({ ...before, waiting: !isLast }));
        }
        if (isLast) break;
      }
      underWay.current = null;
    }
  }, [key, stamp, attempt]);

  useEffect(
    () => () => {
      wanted.current = null;
    },
    [],
  );

  return asked;
}
