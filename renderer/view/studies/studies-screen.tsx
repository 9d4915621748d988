import { useEffect, useRef, useState } from "react";
import type { Refusal } from "../../../app/contract/index.ts";
import { FilePicker } from "../../component/file-picker.tsx";
import { FullName, shortened } from "../../component/name.tsx";
import { Refused } from "../../component/refused.tsx";
import { Waiting } from "../../component/waiting.tsx";
import { WhoField } from "../../component/who-field.tsx";
import { useAsked } from "../../state/asked.ts";
import { askHost, isRefusal } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";
import { afterPress } from "../../state/press.ts";
import { useStudy } from "../../state/study.tsx";
import type { StudyFiles } from "../../state/study-file.ts";
import { chooseWho, proposedWho, whoIsWriting } from "../../state/who.ts";
import { NewStudy } from "./new-study.tsx";
import { type NotOpened, Shelf, WhyNotOpened } from "./shelf.tsx";

/** Which study, and who writes in it? */
export function StudiesScreen({ files }: { files: StudyFiles }) {
  const { studies: words, study: studyWords } = useWords();
  const { opened } = useStudy();
  const [looked, setLooked] = useState(0);
  const shelf = useAsked<"shelf.show">({ kind: "shelf.show" }, String(looked));
  const [name, setName] = useState(proposedWho);
  const [isLacking, setIsLacking] = useState(false);
  const [notOpened, setNotOpened] = useState<NotOpened | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const whoPart = useRef<HTMLElement>(null);
  const newName = useRef<HTMLInputElement>(null);

  // Whoever comes here says who they are, if nobody did yet, and can go on to a study of their own.
  useEffect(() => {
    if (document.querySelector("dialog[open]") !== null) return;
    const field = whoIsWriting() === null ? whoPart.current?.querySelector("input") : newName.current;
    field?.focus();
  }, []);

  /** Keeps the name that stands in the field; false, and the focus on it, where none does. */
  const isNamed = (): boolean => {
    const given = name.trim();
    setIsLacking(given === "");
    if (given === "") whoPart.current?.querySelector("input")?.focus();
    else if (given !== whoIsWriting()) chooseWho(given);
    return given !== "";
  };

  const open = async (place: string) => {
    if (!isNamed()) return;
    setNotOpened(null);
    const answer = await askHost<"study.open">({ kind: "study.open", place });
    if (answer.ok) opened(answer.value, words.opened(shortened(answer.value.name, 120)));
    else if (isRefusal(answer)) {
      setNotOpened({ place, refusal: answer });
      setLooked((before) => before + 1);
    }
  };
  const openExample = async () => {
    if (!isNamed()) return;
    setRefusal(null);
    const answer = await askHost<"study.openExample">({ kind: "study.openExample" });
    if (answer.ok) opened(answer.value, studyWords.exampleOpened);
    else if (isRefusal(answer)) setRefusal(answer);
  };

  // It may have gone from the list meanwhile.
  const isUnlisted = shelf.value?.studies.some(({ place }) => place === notOpened?.place) !== true;

  return (
    <div className="studies">
      <h1>{words.title}</h1>
      <div className="beside">
        <div>
          <section ref={whoPart}>
            <h2>{words.who}</h2>
            {/* biome-ignore lint/a11y/noStaticElementInteractions: a name is kept when its field is left. */}
            <div
              onKeyDown={(event) => {
                if (event.key !== "Enter" || event.nativeEvent.isComposing) return;
                if (!(event.target instanceof HTMLInputElement) || !isNamed()) return;
                event.preventDefault();
                const next = newName.current;
                // The study was named before it was asked who begins it.
                if (next === null || next.value.trim() === "") next?.focus();
                else next.form?.requestSubmit();
              }}
              onBlur={() =>
                // The cover says who writes: it may take fewer lines then, and all below moves.
                afterPress(() => {
                  const given = name.trim();
                  if (given !== "" && given !== whoIsWriting()) chooseWho(given);
                })
              }
            >
              <WhoField
                value={name}
                names={shelf.value?.names ?? []}
                isLacking={isLacking && name.trim() === ""}
                onChange={setName}
              />
            </div>
          </section>
          {isUnlisted && notOpened !== null && <WhyNotOpened refusal={notOpened.refusal} />}
          {shelf.refusal !== null && <Refused refusal={shelf.refusal} />}
          {shelf.value === null && shelf.refusal === null && <Waiting />}
          {shelf.value !== null && (
            <Shelf
              studies={shelf.value.studies}
              onOpen={open}
              notOpened={notOpened}
              mayOpen={async () => isNamed()}
              onLook={() => setLooked((before) => before + 1)}
              isLooking={shelf.waiting}
            />
          )}
        </div>
        <div>
          <NewStudy isNamed={isNamed} input={newName} />
          <section>
            <h2>{words.exampleTitle}</h2>
            <p className="soft">{words.exampleLead}</p>
            <button type="button" className="act quiet" onClick={() => void openExample()}>
              {studyWords.example}
            </button>
            {refusal !== null && <Refused refusal={refusal} />}
          </section>
          <section>
            <h2>{words.fileTitle}</h2>
            <p className="soft">{words.fileLead}</p>
            <div className="acts">
              <FilePicker
                label={words.pick}
                accept=".boilstudy"
                isMain={false}
                onPick={async (picked) => {
                  if (isNamed()) await files.receive(picked);
                }}
              />
              <span className="soft">{words.pickOrDrop}</span>
            </div>
            <p className="soft small" role="status">
              {files.isReading ? words.reading : ""}
            </p>
            {files.complaint !== null && (
              <p className="mark" role="alert">
                {files.complaint}
              </p>
            )}
            {files.refusal !== null && <Refused refusal={files.refusal} />}
          </section>
          {shelf.value !== null && (
            <p className="soft small">
              <FullName text={words.folder(shelf.value.folder)} />
            </p>
          )}
        </div>
      </div>
    </div>
  );
}
