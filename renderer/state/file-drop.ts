import { useEffect, useRef } from "react";

/** Takes files that are dropped anywhere on the window; without it the browser would leave the page to show them. */
export function useFileDrop(take: (files: readonly File[]) => void): void {
  const latest = useRef(take);
  latest.current = take;
  useEffect(() => {
    const over = (event: DragEvent) => {
      if (event.dataTransfer?.types.includes("Files") === true) event.preventDefault();
    };
    const drop = (event: DragEvent) => {
      if (event.dataTransfer?.types.includes("Files") !== true) return;
      event.preventDefault();
      latest.current([...event.dataTransfer.files]);
    };
    window.addEventListener("dragover", over);
    window.addEventListener("drop", drop);
    return () => {
      window.removeEventListener("dragover", over);
      window.removeEventListener("drop", drop);
    };
  }, []);
}
