import { useWords } from "../state/language.tsx";
import { addressOfScreen, type Route, screenNames } from "../state/route.ts";
import { useStudy } from "../state/study.tsx";
import { chooseTheme, type Theme, themes, useTheme } from "../state/theme.ts";
import { Name } from "./name.tsx";
import { Pick } from "./pick.tsx";

/** What lies on top of every page: the study's name, the index dividers, colours and help. */
export function Cover({ route, onHelp }: { route: Route; onHelp: () => void }) {
  const words = useWords().cover;
  return (
    <header className="cover">
      <CoverStudy />
      <IndexDividers route={route} />
      <div className="cover-end small">
        <ThemeChoice />
        <button type="button" className="plain" onClick={onHelp} aria-keyshortcuts="F1">
          {words.help} <kbd>{words.helpKey}</kbd>
        </button>
      </div>
    </header>
  );
}

function CoverStudy() {
  const { separator, cover } = useWords();
  const { view } = useStudy();
  if (view === null) {
    return (
      <div className="cover-study">
        <Name text={cover.noStudy} />
      </div>
    );
  }
  return (
    <div className="cover-study">
      <Name text={view.name} />
      <span className="soft small">
        {cover.runs(view.runs - view.leftOut, view.runs)}
        {separator}
        {cover.questions(view.questions.length)}
      </span>
      {view.isExample && <span className="small invented">{cover.example}</span>}
    </div>
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
