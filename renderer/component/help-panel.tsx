import { useEffect, useRef, useState } from "react";
import type { QuantityEntry } from "../../core/index.ts";
import type { FieldHelpView } from "../state/help.ts";
import { useLocale, useWords } from "../state/language.tsx";
import { quantitiesOf } from "../state/quantities.ts";
import { Cautions } from "./cautions.tsx";
import { Dialog } from "./dialog.tsx";

/** Keys, words, cautions, and what each quantity is. `about` opens it at one quantity; `field` tells of that field first. */
export function HelpPanel({
  about,
  field,
  onClose,
}: {
  about: string | null;
  field: FieldHelpView | null;
  onClose: () => void;
}) {
  const words = useWords().help;
  return (
    <Dialog className="help" label={words.title} onClose={onClose}>
      <div className="help-head">
        <h1>{words.title}</h1>
        <button type="button" className="act quiet" onClick={onClose}>
          {words.close}
        </button>
      </div>
      {field !== null && <AboutField field={field} />}
      {about === null && (
        <>
          <section>
            <h2>{words.keys}</h2>
            <dl className="pairs">
              {words.keyList.map(([key, meaning]) => (
                <div key={key} className="pair">
                  <dt>
                    <kbd>{key}</kbd>
                  </dt>
                  <dd>{meaning}</dd>
                </div>
              ))}
            </dl>
          </section>
          <Cautions />
          <section>
            <h2>{words.words}</h2>
            <dl className="pairs">
              {words.wordList.map(([word, meaning]) => (
                <div key={word} className="pair">
                  <dt>
                    <b>{word}</b>
                  </dt>
                  <dd>{meaning}</dd>
                </div>
              ))}
            </dl>
          </section>
        </>
      )}
      <QuantityList about={about} />
    </Dialog>
  );
}

function AboutField({ field }: { field: FieldHelpView }) {
  const words = useWords().bench;
  return (
    <section className="about-field">
      <h2>{field.name}</h2>
      <dl>
        <dt className="soft small">{words.helpWhat}</dt>
        <dd>{field.what}</dd>
        <dt className="soft small">{words.helpHow}</dt>
        <dd>{field.how}</dd>
        <dt className="soft small">{words.helpFeeds}</dt>
        <dd>{field.feeds}</dd>
      </dl>
    </section>
  );
}

function QuantityList({ about }: { about: string | null }) {
  const words = useWords().help;
  const locale = useLocale();
  const quantities = [...quantitiesOf(locale).values()];
  const [wanted, setWanted] = useState("");
  const found = quantities.filter((quantity) => quantity.label.toLowerCase().includes(wanted.trim().toLowerCase()));
  return (
    <section>
      <h2>{words.quantities}</h2>
      <p className="soft">{words.quantitiesLead}</p>
      <label className="find">
        <span>{words.find}</span>
        <input className="field" type="search" value={wanted} onChange={(event) => setWanted(event.target.value)} />
      </label>
      {found.length === 0 && <p role="status">{words.noneFound}</p>}
      {found.map((quantity) => (
        <QuantityArticle key={quantity.name} quantity={quantity} isWanted={quantity.name === about} />
      ))}
    </section>
  );
}

function QuantityArticle({ quantity, isWanted }: { quantity: QuantityEntry; isWanted: boolean }) {
  const words = useWords().help;
  const article = useRef<HTMLElement>(null);
  useEffect(() => {
    if (!isWanted) return;
    article.current?.scrollIntoView({ block: "start" });
    article.current?.focus({ preventScroll: true });
  }, [isWanted]);
  return (
    <article ref={article} className="quantity" tabIndex={isWanted ? -1 : undefined}>
      <h3>
        {quantity.label}
        {quantity.shownUnit !== "" && <span className="soft"> {words.unit(quantity.shownUnit)}</span>}
      </h3>
      <p>
        {quantity.meaning} <span className="soft">({words.direction[quantity.direction]})</span>
      </p>
      <p>
        <span className="soft">{words.formula}</span> <span className="formula">{quantity.formula}</span>
      </p>
      <p className="small soft">
        {words.source}: {quantity.source}
      </p>
    </article>
  );
}
