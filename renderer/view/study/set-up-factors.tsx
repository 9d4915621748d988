import { useState } from "react";
import { useWords } from "../../state/language.tsx";

/** Adds a column for a design factor: a usual one with one key, or one of another name. It is kept once a variant has a level of it. */
export function SetUpFactors({
  suggestions,
  onAdd,
}: {
  suggestions: readonly string[];
  onAdd: (factor: string) => void;
}) {
  const words = useWords().setUp;
  const [name, setName] = useState("");
  const [isLacking, setIsLacking] = useState(false);
  return (
    <form
      className="set-up-factors"
      onSubmit={(event) => {
        event.preventDefault();
        const given = name.trim();
        setIsLacking(given === "");
        if (given === "") return;
        onAdd(given);
        setName("");
      }}
    >
      <span className="soft">{words.addFieldLead}</span>
      {suggestions.map((factor) => (
        <button
          key={factor}
          type="button"
          className="plain"
          aria-label={words.addFactorOf(factor)}
          onClick={() => onAdd(factor)}
        >
          {factor}
        </button>
      ))}
      <input
        className="field"
        aria-label={words.factorName}
        placeholder={words.otherFactor}
        autoComplete="off"
        dir="auto"
        maxLength={500}
        value={name}
        aria-invalid={isLacking && name.trim() === ""}
        onChange={(event) => setName(event.target.value)}
      />
      <button type="submit" className="act quiet">
        {words.addFactor}
      </button>
      {isLacking && name.trim() === "" && (
        <span className="mark" role="alert">
          {words.factorNeeded}
        </span>
      )}
    </form>
  );
}
