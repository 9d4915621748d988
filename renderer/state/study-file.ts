import { useCallback, useState } from "react";
import { fileByteLimit, type Refusal } from "../../app/contract/index.ts";
import { shorten } from "../../core/index.ts";
import { type CarriedFile, carry } from "./file.ts";
import { askHost, isRefusal } from "./host.ts";
import { useWords } from "./language.tsx";
import { useStudy } from "./study.tsx";

export const isStudyFile = (file: File) => /\.boilstudy$/i.test(file.name);

/** Study files that come through the window, dropped or picked. */
export interface StudyFiles {
  readonly receive: (files: readonly File[]) => Promise<void>;
  readonly isReading: boolean;
  /** What was wrong before anything was asked, in words. */
  readonly complaint: string | null;
  readonly refusal: Refusal | null;
}

/** Puts a study file into the studies folder and opens it. The study that was open stays where it is. */
export function useStudyFiles(): StudyFiles {
  const words = useWords().studies;
  const { opened } = useStudy();
  const [isReading, setIsReading] = useState(false);
  const [complaint, setComplaint] = useState<string | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);

  const receive = useCallback(
    async (files: readonly File[]) => {
      setRefusal(null);
      setComplaint(null);
      const [file, ...more] = files;
      if (file === undefined) return;
      const name = shorten(file.name);
      if (more.length > 0) return setComplaint(words.oneAtATime);
      if (file.size > fileByteLimit) return setComplaint(words.tooLarge(name, words.limit));
      setIsReading(true);
      let carried: CarriedFile | null = null;
      try {
        carried = await carry(file);
      } catch {
        setComplaint(words.unreadable(name));
      }
      if (carried !== null) {
        const answer = await askHost<"study.receive">({ kind: "study.receive", file: carried });
        if (answer.ok) opened(answer.value, words.opened(shorten(answer.value.name, 120)));
        else if (isRefusal(answer)) setRefusal(answer);
      }
      setIsReading(false);
    },
    [words, opened],
  );

  return { receive, isReading, complaint, refusal };
}
