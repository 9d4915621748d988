import { useEffect, useId, useRef } from "react";
import type { Refusal, ShelfEntry } from "../../../app/contract/index.ts";
import { Moment } from "../../component/moment.tsx";
import { FullName, Name } from "../../component/name.tsx";
import { PlaceBackups } from "../../component/place-backups.tsx";
import { Refused } from "../../component/refused.tsx";
import { useWords } from "../../state/language.tsx";
import { useStudy } from "../../state/study.tsx";

/** Why an entry of the list could not be opened. */
export interface NotOpened {
  readonly place: string;
  readonly refusal: Refusal;
}

interface ShelfProps {
  studies: readonly ShelfEntry[];
  onOpen: (place: string) => Promise<void>;
  /** Which one could not be opened last. */
  notOpened: NotOpened | null;
  /** Somebody is named who writes in what is opened. */
  mayOpen: () => Promise<boolean>;
  onLook: () => void;
  isLooking: boolean;
}

/** The studies that can be opened, recent ones first. */
export function Shelf({ studies, onLook, isLooking, ...rest }: ShelfProps) {
  const { studies: words } = useWords();
  return (
    <section className="shelf">
      <h2>{words.list}</h2>
      {studies.length === 0 && <p className="soft">{words.none}</p>}
      <ul className="lines">
        {studies.map((study) => (
          <OnShelf key={study.place} study={study} {...rest} />
        ))}
      </ul>
      <button type="button" className="plain small" aria-busy={isLooking} onClick={onLook}>
        {words.refresh}
      </button>
    </section>
  );
}

function OnShelf({
  study,
  onOpen,
  notOpened,
  mayOpen,
}: Omit<ShelfProps, "studies" | "onLook" | "isLooking"> & { study: ShelfEntry }) {
  const { studies: words, separator } = useWords();
  const { view } = useStudy();
  const id = useId();
  const refusal = notOpened?.place === study.place ? notOpened.refusal : null;
  return (
    <li>
      {study.isGone ? (
        <b className="soft">
          <Name text={study.name} />
        </b>
      ) : (
        <button
          type="button"
          className="plain study-name"
          aria-label={words.open(study.name)}
          aria-describedby={id}
          onClick={() => void onOpen(study.place)}
        >
          <Name text={study.name} />
        </button>
      )}
      <div id={id}>
        <div className="soft small">
          <Moment at={study.at} />
          {separator}
          {study.recent ? words.recent : words.inFolder}
          {study.file === view?.file && (
            <>
              {separator}
              <b>{words.isOpen}</b>
            </>
          )}
        </div>
        <div className="soft small">
          <FullName text={study.file} />
        </div>
      </div>
      {study.isGone && refusal === null && <p className="small attention">{words.gone}</p>}
      {refusal !== null && <WhyNotOpened refusal={refusal} />}
      {(study.isGone || refusal !== null) && <PlaceBackups place={study.place} mayOpen={mayOpen} />}
    </li>
  );
}

/** It takes the focus: the backups that may help come next, and what was pressed may be gone. */
export function WhyNotOpened({ refusal }: { refusal: Refusal }) {
  const { studies: words } = useWords();
  const told = useRef<HTMLDivElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each refusal takes it, also one of the same words.
  useEffect(() => told.current?.focus(), [refusal]);
  return (
    <div ref={told} tabIndex={-1}>
      <Refused refusal={refusal} title={words.notOpened} />
    </div>
  );
}
