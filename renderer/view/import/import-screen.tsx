import { Refused } from "../../component/refused.tsx";
import type { ImportDesk } from "../../state/import-desk.ts";
import { useWords } from "../../state/language.tsx";
import { CheckedFile } from "./checked-file.tsx";
import { FilePickers } from "./file-pickers.tsx";

/** How do I get my file in? */
export function ImportScreen({ desk }: { desk: ImportDesk }) {
  const words = useWords().importing;
  return (
    <div className="import" aria-busy={desk.waiting}>
      {desk.view !== null && <h1 className="visually-hidden">{words.table(desk.view.readingsFile)}</h1>}
      {desk.view === null && (
        <>
          <h1>{words.title}</h1>
          <p className="soft prose">{words.lead}</p>
        </>
      )}
      <FilePickers desk={desk} />
      <Complaints desk={desk} />
      {desk.refusal !== null && <Refused refusal={desk.refusal} />}
      <p className="soft small" role="status">
        {desk.waiting && desk.view === null ? words.checking : ""}
      </p>
      {desk.view !== null && <CheckedFile desk={desk} view={desk.view} />}
    </div>
  );
}

function Complaints({ desk }: { desk: ImportDesk }) {
  const words = useWords().importing;
  const { complaint } = desk;
  if (complaint === null) return null;
  const sentence =
    complaint.kind === "notThese"
      ? words.notThese(complaint.files.join(", "))
      : complaint.kind === "tooLarge"
        ? words.tooLarge(complaint.file, words.limit)
        : words.unreadable(complaint.file);
  return (
    <p className="mark prose" role="alert">
      {sentence}
    </p>
  );
}
