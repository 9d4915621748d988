import { type ReactNode, useEffect, useRef } from "react";

/** A modal sheet: the platform's own dialog, which keeps the focus inside, closes on Escape and gives the focus back. */
export function Dialog({
  className,
  label,
  onClose,
  children,
}: {
  className: string;
  label: string;
  onClose: () => void;
  children: ReactNode;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const element = dialog.current;
    const before = document.activeElement;
    element?.showModal();
    return () => {
      element?.close();
      if (before instanceof HTMLElement) before.focus();
    };
  }, []);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: a click beside the sheet closes it; Escape does so by keyboard.
    <dialog
      ref={dialog}
      className={className}
      aria-label={label}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
      onClick={(event) => {
        if (event.target === dialog.current && isBeside(event, dialog.current)) onClose();
      }}
    >
      {children}
    </dialog>
  );
}

function isBeside(point: { clientX: number; clientY: number }, element: Element): boolean {
  const box = element.getBoundingClientRect();
  return point.clientX < box.left || point.clientX > box.right || point.clientY < box.top || point.clientY > box.bottom;
}
