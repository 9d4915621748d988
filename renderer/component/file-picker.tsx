import { useRef } from "react";

/** A button behind which the platform's own choice of files opens. */
export function FilePicker({
  label,
  accept,
  isMain,
  onPick,
}: {
  label: string;
  accept: string;
  isMain: boolean;
  onPick: (files: readonly File[]) => Promise<void>;
}) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" className={isMain ? "act" : "act quiet"} onClick={() => input.current?.click()}>
        {label}
      </button>
      <input
        ref={input}
        type="file"
        accept={accept}
        aria-label={label}
        hidden
        onChange={(event) => {
          const files = [...(event.target.files ?? [])];
          // The same file can be picked again after it was mended elsewhere.
          event.target.value = "";
          if (files.length > 0) void onPick(files);
        }}
      />
    </>
  );
}
