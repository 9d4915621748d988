import { useState } from "react";
import type { Refusal } from "../../../app/contract/index.ts";
import type { RequestOf } from "../../api.ts";
import { Pick } from "../../component/pick.tsx";
import { Refused } from "../../component/refused.tsx";
import { handOver } from "../../state/file.ts";
import { askHost, isRefusal } from "../../state/host.ts";
import { useWords } from "../../state/language.tsx";
import { useStudy } from "../../state/study.tsx";

const sheetCounts = [1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 24, 30];
const potCounts = [1, 2, 3, 4] as const;

const inTurn = "in turn";

/** What is asked for by the choice's value: "", "in turn", or "=" and a variant's name. */
function variantsAsked(value: string): RequestOf<"sheets.print">["variants"] {
  if (value === inTurn) return { kind: "inTurn" };
  return value === "" ? { kind: "none" } : { kind: "one", variant: value.slice(1) };
}

/** Sheets to write on by the fire, one run each: the steps of the procedure as a form. */
export function BlankSheets() {
  const { study: words } = useWords();
  const { handle, view } = useStudy();
  const [sheets, setSheets] = useState(3);
  const [pots, setPots] = useState<(typeof potCounts)[number]>(1);
  const [charAtHotStart, setCharAtHotStart] = useState(true);
  const [variants, setVariants] = useState("");
  const [emissions, setEmissions] = useState(false);
  const [done, setDone] = useState("");
  const [isBusy, setIsBusy] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);

  const known = view?.variants ?? [];

  const print = async () => {
    if (isBusy) return;
    setIsBusy(true);
    setDone("");
    setRefusal(null);
    const asked = { study: handle, sheets, variants: variantsAsked(variants), pots, charAtHotStart, emissions };
    const answer = await askHost<"sheets.print">({ kind: "sheets.print", ...asked });
    setIsBusy(false);
    if (answer.ok) {
      handOver(answer.value.fileName, answer.value.mediaType, answer.value.contentBase64);
      setDone(words.sheetsSaved(answer.value.fileName));
    } else if (isRefusal(answer)) setRefusal(answer);
  };

  return (
    <section className="blank-sheets">
      <h2>{words.sheets}</h2>
      <p className="soft">{words.sheetsLead}</p>
      <p className="sheets-sentence">
        <Pick
          label={words.sheetCountLabel}
          value={String(sheets)}
          options={sheetCounts.map((count) => ({ value: String(count), label: words.sheetCount(count) }))}
          onPick={(count) => setSheets(Number(count))}
        />{" "}
        {words.sheetsFor}{" "}
        <Pick
          label={words.potCountLabel}
          value={String(pots)}
          options={potCounts.map((count) => ({ value: String(count), label: words.potCount(count) }))}
          onPick={(count) => setPots(potCounts.find((one) => String(one) === count) ?? 1)}
        />{" "}
        {words.sheetsWith}{" "}
        <Pick
          label={words.sheetVariantsLabel}
          value={variants}
          options={[
            { value: "", label: words.sheetVariantsNone },
            ...(known.length > 1 ? [{ value: inTurn, label: words.sheetVariantsInTurn }] : []),
            ...known.map(({ name }) => ({ value: `=${name}`, label: words.sheetVariant(name) })),
          ]}
          onPick={setVariants}
        />
      </p>
      {view?.method !== "iso" && (
        <label className="check">
          <input
            type="checkbox"
            checked={charAtHotStart}
            onChange={(event) => setCharAtHotStart(event.target.checked)}
          />
          <span>{words.sheetsChar}</span>
        </label>
      )}
      <label className="check">
        <input type="checkbox" checked={emissions} onChange={(event) => setEmissions(event.target.checked)} />
        <span>{words.sheetsEmissions}</span>
      </label>
      <button type="button" className="act quiet" aria-busy={isBusy} onClick={() => void print()}>
        {words.sheetsSave}
      </button>
      <p className="soft small" role="status">
        {done}
      </p>
      {refusal !== null && <Refused refusal={refusal} />}
    </section>
  );
}
