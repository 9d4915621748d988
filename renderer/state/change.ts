import { useCallback } from "react";
import type { Edit } from "../../app/contract/index.ts";
import type { Answer } from "../api.ts";
import { askHost } from "./host.ts";
import { useStudy } from "./study.tsx";
import { useAskWho } from "./who.ts";

/** Makes an edit of the open study, once it is known who makes it. Null: nobody was named, nothing was asked. */
export function useMakeEdit(): (edit: Edit) => Promise<Answer<"edit.make"> | null> {
  const { handle, edited } = useStudy();
  const askWho = useAskWho();
  return useCallback(
    async (edit) => {
      const name = await askWho.ask();
      if (name === null) return null;
      const answer = await askHost<"edit.make">({ kind: "edit.make", study: handle, who: name, edit });
      if (answer.ok) edited(answer.value, answer.value.done);
      return answer;
    },
    [handle, edited, askWho],
  );
}
