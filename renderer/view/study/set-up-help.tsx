import { useEffect, useRef } from "react";
import type { SetUpFieldView } from "../../../app/contract/index.ts";
import { Dialog } from "../../component/dialog.tsx";
import { useWords } from "../../state/language.tsx";

/** What the columns of a table are, how they are found, and what they are for; one of them is wanted. */
export function SetUpHelp({
  title,
  fields,
  about,
  onClose,
}: {
  title: string;
  fields: readonly SetUpFieldView[];
  about: string;
  onClose: () => void;
}) {
  const words = useWords().setUp;
  const wanted = useRef<HTMLElement>(null);
  useEffect(() => {
    wanted.current?.focus();
  }, []);
  return (
    <Dialog className="help" label={words.helpTitle(title)} onClose={onClose}>
      <div className="help-head">
        <h1>{words.helpTitle(title)}</h1>
        <button type="button" className="act quiet" onClick={onClose}>
          {words.close}
        </button>
      </div>
      {fields.map((field) => (
        <article
          key={field.field}
          ref={field.field === about ? wanted : undefined}
          className="quantity"
          tabIndex={field.field === about ? -1 : undefined}
        >
          <h2>
            <bdi>{field.name}</bdi> {field.unit !== null && <span className="soft">{words.unit(field.unit)}</span>}
          </h2>
          <p>{field.what}</p>
        </article>
      ))}
    </Dialog>
  );
}
