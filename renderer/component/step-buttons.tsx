import { useWords } from "../state/language.tsx";
import type { Steps } from "../state/steps.ts";
import { useStudy } from "../state/study.tsx";
import { shortened } from "./name.tsx";

const isApple = /Mac|iPhone|iPad/.test(navigator.platform);

/** Undo and redo, each with what it would be of in its name. */
export function StepButtons({ steps }: { steps: Steps }) {
  const words = useWords().cover;
  const { view } = useStudy();
  const can = view !== null && view.readOnly === null;
  const undo = can ? view.undo : null;
  const redo = can ? view.redo : null;
  return (
    <span className="steps">
      <StepButton
        name={undo === null ? words.nothingToUndo : words.undoOf(shortened(undo.label, 200))}
        keys="Control+Z Meta+Z"
        isIdle={undo === null}
        onPress={steps.undo}
      >
        {words.undo}
      </StepButton>
      {/* Beside the button, not in it: its name says what would be undone. */}
      <kbd>{isApple ? words.undoKeyApple : words.undoKey}</kbd>
      <StepButton
        name={redo === null ? words.nothingToRedo : words.redoOf(shortened(redo.label, 200))}
        keys="Control+Shift+Z Meta+Shift+Z Control+Y"
        isIdle={redo === null}
        onPress={steps.redo}
      >
        {words.redo}
      </StepButton>
    </span>
  );
}

/** It stays where it is when there is nothing left to do, so that the focus does too. */
function StepButton({
  name,
  keys,
  isIdle,
  onPress,
  children,
}: {
  name: string;
  keys: string;
  isIdle: boolean;
  onPress: () => void;
  children: React.ReactNode;
}) {
  return (
    <button
      type="button"
      className="plain"
      aria-label={name}
      title={name}
      aria-keyshortcuts={keys}
      aria-disabled={isIdle}
      onClick={() => {
        if (!isIdle) onPress();
      }}
    >
      {children}
    </button>
  );
}
