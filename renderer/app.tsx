import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import { defaultLocale } from "../core/index.ts";
import { Cover } from "./component/cover.tsx";
import { FaultBoundary } from "./component/fault-boundary.tsx";
import { HelpPanel } from "./component/help-panel.tsx";
import { HostTrouble } from "./component/host-trouble.tsx";
import { useAsked } from "./state/asked.ts";
import { useFileDrop } from "./state/file-drop.ts";
import { HelpContext } from "./state/help.ts";
import { type ImportDesk, useImportDesk } from "./state/import-desk.ts";
import { Language, useWords } from "./state/language.tsx";
import { type Go, noChoices, type Route, type ScreenName, useRoute } from "./state/route.ts";
import { type OpenStudy, StudyContext } from "./state/study.tsx";
import { CompareScreen } from "./view/compare/compare-screen.tsx";
import { ImportScreen } from "./view/import/import-screen.tsx";
import { ReportScreen } from "./view/report/report-screen.tsx";
import { RunsScreen } from "./view/runs/runs-screen.tsx";
import { StudyScreen } from "./view/study/study-screen.tsx";

/** The whole page: one study, its cover, and the sheet that is open. */
export function App() {
  const [revision, setRevision] = useState(0);
  const asked = useAsked<"study.show">({ kind: "study.show" }, revision);
  const [route, go] = useRoute();
  const [said, setSaid] = useState("");
  const replaced = useCallback(
    (sentence: string) => {
      setRevision((before) => before + 1);
      setSaid(sentence);
      go(noChoices);
    },
    [go],
  );
  const study = useMemo<OpenStudy>(
    () => ({ view: asked.value, revision, replaced }),
    [asked.value, revision, replaced],
  );
  return (
    <Language locale={asked.value?.locale ?? defaultLocale}>
      <StudyContext value={study}>
        <Book route={route} go={go} said={said} />
      </StudyContext>
    </Language>
  );
}

function Book({ route, go, said }: { route: Route; go: Go; said: string }) {
  const words = useWords();
  const [help, setHelp] = useState<{ about: string | null } | null>(null);
  const sheet = useRef<HTMLElement>(null);
  const keepImport = useCallback((id: string | null) => go({ import: id }, "replace"), [go]);
  const desk = useImportDesk(route.import, keepImport);
  useFileDrop((files) => {
    go({ screen: "import" });
    void desk.take(files);
  });
  useHelpKey(() => setHelp((before) => (before === null ? { about: null } : null)));
  const title = words.tabs[route.screen];
  useEffect(() => {
    document.title = `${title} – ${words.program}`;
  }, [title, words.program]);
  return (
    <HelpContext value={(about) => setHelp({ about })}>
      <button type="button" className="act skip" onClick={() => sheet.current?.focus()}>
        {words.cover.skip}
      </button>
      <Cover route={route} onHelp={() => setHelp({ about: null })} />
      <main className="sheet" ref={sheet} tabIndex={-1}>
        <div className="page">
          <HostTrouble />
          <p className="visually-hidden" role="status">
            {said}
          </p>
          <FaultBoundary key={route.screen}>
            <Screen name={route.screen} route={route} go={go} desk={desk} />
          </FaultBoundary>
        </div>
      </main>
      {help !== null && <HelpPanel about={help.about} onClose={() => setHelp(null)} />}
    </HelpContext>
  );
}

function Screen({ name, route, go, desk }: { name: ScreenName; route: Route; go: Go; desk: ImportDesk }) {
  switch (name) {
    case "study":
      return <StudyScreen route={route} />;
    case "runs":
      return <RunsScreen route={route} go={go} />;
    case "import":
      return <ImportScreen desk={desk} />;
    case "compare":
      return <CompareScreen route={route} go={go} />;
    case "report":
      return <ReportScreen route={route} go={go} />;
  }
}

/** F1 opens and closes help, in place of the browser's own. */
function useHelpKey(toggle: () => void): void {
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (event.key !== "F1") return;
      event.preventDefault();
      toggle();
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  });
}
