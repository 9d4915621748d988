import type { ShelfEntry } from "../../../app/contract/index.ts";
import { Moment } from "../../component/moment.tsx";
import { FullName, Name, shortened } from "../../component/name.tsx";
import { useWords } from "../../state/language.tsx";
import { useStudy } from "../../state/study.tsx";

/** The studies that can be opened, recent ones first. */
export function Shelf({
  studies,
  onOpen,
  onLook,
  isLooking,
}: {
  studies: readonly ShelfEntry[];
  onOpen: (place: string) => Promise<void>;
  onLook: () => void;
  isLooking: boolean;
}) {
  const { studies: words, separator } = useWords();
  const { view } = useStudy();
  return (
    <section className="shelf">
      <h2>{words.list}</h2>
      {studies.length === 0 && <p className="soft">{words.none}</p>}
      <ul className="lines">
        {studies.map((study) => (
          <li key={study.place}>
            {study.isGone ? (
              <b className="soft">
                <Name text={study.name} />
              </b>
            ) : (
              <button
                type="button"
                className="plain study-name"
                aria-label={words.open(shortened(study.name, 120))}
                onClick={() => void onOpen(study.place)}
              >
                <Name text={study.name} />
              </button>
            )}
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
            {study.isGone && <p className="small attention">{words.gone}</p>}
          </li>
        ))}
      </ul>
      <button type="button" className="plain small" aria-busy={isLooking} onClick={onLook}>
        {words.refresh}
      </button>
    </section>
  );
}
