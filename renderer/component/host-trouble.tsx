import { tryAgain, useHost } from "../state/host.ts";
import { useWords } from "../state/language.tsx";

/** Stands at the top while the host does not answer; the page below keeps what was typed. */
export function HostTrouble() {
  const words = useWords().trouble;
  const { trouble } = useHost();
  if (trouble === null) return null;
  const shutOut = trouble === "shut-out";
  return (
    <div className="mark notice" role="alert">
      <b>{shutOut ? words.shutOut : words.unreachable}</b>
      <p>{shutOut ? words.shutOutRemedy : words.unreachableRemedy}</p>
      <button type="button" className="act quiet" onClick={tryAgain}>
        {words.tryAgain}
      </button>
    </div>
  );
}
