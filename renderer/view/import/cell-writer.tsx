import { useEffect, useRef, useState } from "react";

/** Writes in a cell: Enter keeps, Tab keeps and goes on, Escape takes back; leaving keeps, so that nothing typed is lost. */
export function CellWriter({
  label,
  text,
  isReplacing,
  onKeep,
  onDrop,
}: {
  label: string;
  text: string;
  /** The first character was typed already: the caret stands behind it. */
  isReplacing: boolean;
  onKeep: (text: string, goesOn: boolean) => void;
  onDrop: () => void;
}) {
  const [written, setWritten] = useState(text);
  const input = useRef<HTMLInputElement>(null);
  const isDone = useRef(false);

  useEffect(() => {
    input.current?.focus();
    if (isReplacing) input.current?.setSelectionRange(-1, -1);
    else input.current?.select();
  }, [isReplacing]);

  const finish = (how: () => void) => {
    if (isDone.current) return;
    isDone.current = true;
    how();
  };

  return (
    <input
      ref={input}
      className="cell-writer"
      aria-label={label}
      maxLength={10_000}
      value={written}
      onChange={(event) => setWritten(event.target.value)}
      onKeyDown={(event) => {
        event.stopPropagation();
        if (event.key === "Enter" || (event.key === "Tab" && !event.shiftKey)) {
          event.preventDefault();
          finish(() => onKeep(written, event.key === "Tab"));
        } else if (event.key === "Escape") {
          event.preventDefault();
          finish(onDrop);
        }
      }}
      onBlur={() => finish(() => onKeep(written, false))}
    />
  );
}
