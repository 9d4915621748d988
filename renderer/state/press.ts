/** Whether a button of the mouse, or a finger, is down in this window. */
let isDown = false;

const ends = ["pointerup", "pointercancel"] as const;

window.addEventListener(
  "pointerdown",
  () => {
    isDown = true;
  },
  true,
);
for (const end of ends) {
  window.addEventListener(
    end,
    () => {
      isDown = false;
    },
    true,
  );
}

/**
 * Does it at once, or after the press that goes on now. Where a field is left by pressing a button, what its leaving changes
 * could move the button away between down and up, and the press would be lost.
 */
export function afterPress(act: () => void): void {
  if (!isDown) {
    act();
    return;
  }
  const then = () => {
    for (const end of ends) window.removeEventListener(end, then, true);
    // The click comes right behind.
    setTimeout(act, 0);
  };
  for (const end of ends) window.addEventListener(end, then, true);
}
