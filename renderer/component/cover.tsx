import { useWords } from "../state/language.tsx";
import { addressOfScreen, type Route, screenNames } from "../state/route.ts";
import type { Steps } from "../state/steps.ts";
import { chooseTheme, type Theme, themes, useTheme } from "../state/theme.ts";
import { CoverStudy } from "./cover-study.tsx";
import { Pick } from "./pick.tsx";
import { StepButtons } from "./step-buttons.tsx";

/** What lies on top of every page: the study and who writes in it, the index dividers, undo, colours and help. */
export function Cover({ route, steps, onHelp }: { route: Route; steps: Steps; onHelp: () => void }) {
  const words = useWords().cover;
  return (
    <header className="cover">
      <CoverStudy route={route} />
      <IndexDividers route={route} />
      <div className="cover-end small">
        <StepButtons steps={steps} />
        <ThemeChoice />
        <button type="button" className="plain" onClick={onHelp} aria-keyshortcuts="F1">
          {words.help} <kbd>{words.helpKey}</kbd>
        </button>
      </div>
    </header>
  );
}

function IndexDividers({ route }: { route: Route }) {
  const { cover, tabs } = useWords();
  return (
    <nav className="dividers-nav" aria-label={cover.screens}>
      <ul className="dividers">
        {screenNames.map((screen) => (
          <li key={screen}>
            <a href={addressOfScreen(route, screen)} aria-current={screen === route.screen ? "page" : undefined}>
              {tabs[screen]}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}

function ThemeChoice() {
  const words = useWords().cover;
  const theme = useTheme();
  return (
    <span className="theme-choice">
      <span className="soft theme-word" aria-hidden="true">
        {words.colours}
      </span>
      <Pick
        label={words.colours}
        value={theme}
        options={themes.map((value) => ({ value, label: words.colour[value] }))}
        onPick={(value) => chooseTheme(value as Theme)}
      />
    </span>
  );
}
