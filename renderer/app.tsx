import { useCallback, useEffect, useRef, useState } from "react";
import { defaultLocale } from "../core/index.ts";
import { Cover } from "./component/cover.tsx";
import { FaultBoundary } from "./component/fault-boundary.tsx";
import { HelpPanel } from "./component/help-panel.tsx";
import { HostTrouble } from "./component/host-trouble.tsx";
import { shortened } from "./component/name.tsx";
import { StudyGone, StudyNotices } from "./component/study-notices.tsx";
import { Told } from "./component/told.tsx";
import { WhoAsked } from "./component/who-asked.tsx";
import { type CellDesk, useCellDesk } from "./state/cell-desk.ts";
import { useFileDrop } from "./state/file-drop.ts";
import { type FieldHelpView, HelpContext } from "./state/help.ts";
import { type ImportDesk, useImportDesk } from "./state/import-desk.ts";
import { Language, useWords } from "./state/language.tsx";
import { useOpenStudy } from "./state/open-study.ts";
import { type Go, type Route, useRoute } from "./state/route.ts";
import { useStepKeys, useSteps } from "./state/steps.ts";
import { StudyContext, useStudy } from "./state/study.tsx";
import { isStudyFile, type StudyFiles, useStudyFiles } from "./state/study-file.ts";
import { useAskWho } from "./state/who.ts";
import { BenchScreen } from "./view/bench/bench-screen.tsx";
import { CompareScreen } from "./view/compare/compare-screen.tsx";
import { ImportScreen } from "./view/import/import-screen.tsx";
import { ReportScreen } from "./view/report/report-screen.tsx";
import { RunsScreen } from "./view/runs/runs-screen.tsx";
import { StudiesScreen } from "./view/studies/studies-screen.tsx";
import { StudyScreen } from "./view/study/study-screen.tsx";

/** The whole page: one study, its cover, and the sheet that is open. */
export function App() {
  const [route, go] = useRoute();
  const study = useOpenStudy(route.study, go);
  return (
    <Language locale={study.view?.locale ?? defaultLocale}>
      <StudyContext value={study}>
        <WhoAsked>
          <Book route={route} go={go} said={study.said} />
        </WhoAsked>
      </StudyContext>
    </Language>
  );
}

function Book({ route, go, said }: { route: Route; go: Go; said: string }) {
  const words = useWords();
  const { handle, view, refusal, tell } = useStudy();
  const [help, setHelp] = useState<{ about: string | null; field: FieldHelpView | null } | null>(null);
  const sheet = useRef<HTMLElement>(null);
  const steps = useSteps();
  useStepKeys(steps);
  const keepImport = useCallback((id: string | null) => go({ import: id }, "replace"), [go]);
  const desk = useImportDesk(route.import, keepImport);
  const cells = useCellDesk();
  const files = useStudyFiles();
  useDroppedFiles(go, desk, files);
  useKey("F1", () => setHelp((before) => (before === null ? { about: null, field: null } : null)));
  useKey("Control+o", () => go({ screen: "studies" }));
  useSheetFocus(handle, sheet);
  useForgetting(route.screen, said, tell);
  const title = route.screen === "studies" ? words.studies.tab : words.tabs[route.screen];
  const about = view === null ? title : `${title} – ${shortened(view.name)}`;
  useEffect(() => {
    document.title = `${about} – ${words.program}`;
  }, [about, words.program]);
  // These two do without an open study; what was typed there stays when another is opened.
  const isOfStudy = route.screen !== "studies" && route.screen !== "import";
  const isGone = refusal !== null && isOfStudy;
  return (
    <HelpContext value={(about, field) => setHelp({ about, field: field ?? null })}>
      <button type="button" className="act skip" onClick={() => sheet.current?.focus()}>
        {words.cover.skip}
      </button>
      <Cover route={route} steps={steps} onHelp={() => setHelp({ about: null, field: null })} />
      <main className="sheet" ref={sheet} tabIndex={-1}>
        <div className="page">
          <Told said={said} steps={steps} />
          <HostTrouble />
          {route.screen !== "studies" && <StudyNotices go={go} onWritable={() => sheet.current?.focus()} />}
          <FaultBoundary key={isOfStudy ? `${route.screen}/${handle}` : route.screen}>
            {isGone ? (
              <StudyGone refusal={refusal} route={route} />
            ) : (
              <Screen route={route} go={go} desk={desk} cells={cells} files={files} />
            )}
          </FaultBoundary>
        </div>
      </main>
      {help !== null && <HelpPanel about={help.about} field={help.field} onClose={() => setHelp(null)} />}
    </HelpContext>
  );
}

interface ScreenProps {
  route: Route;
  go: Go;
  desk: ImportDesk;
  cells: CellDesk;
  files: StudyFiles;
}

function Screen({ route, go, desk, cells, files }: ScreenProps) {
  switch (route.screen) {
    case "studies":
      return <StudiesScreen files={files} />;
    case "study":
      return <StudyScreen route={route} />;
    case "bench":
      return <BenchScreen route={route} go={go} cells={cells} />;
    case "runs":
      return <RunsScreen route={route} go={go} cells={cells} />;
    case "import":
      return <ImportScreen desk={desk} />;
    case "compare":
      return <CompareScreen route={route} go={go} />;
    case "report":
      return <ReportScreen route={route} go={go} />;
  }
}

/** A study file is opened; everything else goes to Import. */
function useDroppedFiles(go: Go, desk: ImportDesk, files: StudyFiles): void {
  const askWho = useAskWho();
  useFileDrop((dropped) => {
    if (dropped.some(isStudyFile)) {
      go({ screen: "studies" });
      void askWho.ask().then((who) => (who === null ? undefined : files.receive(dropped)));
    } else {
      go({ screen: "import" });
      void desk.take(dropped);
    }
  });
}

/** A key of the whole page, in place of the browser's own; "Control" stands for Command too. */
function useKey(keys: string, act: () => void): void {
  const [key = keys, modifier] = keys.split("+").reverse();
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      const isModified = event.ctrlKey !== event.metaKey && !event.shiftKey && !event.altKey;
      if (event.key.toLowerCase() !== key.toLowerCase() || (modifier !== undefined && !isModified)) return;
      event.preventDefault();
      // A sheet that asks something is answered first.
      if (modifier !== undefined && document.querySelector("dialog[open]") !== null) return;
      act();
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  });
}

/** Another study was opened in this window: the focus goes to its page, as what it was on is gone. */
function useSheetFocus(handle: string | null, sheet: { readonly current: HTMLElement | null }): void {
  const before = useRef(handle);
  useEffect(() => {
    const isOther = before.current !== null && handle !== null && before.current !== handle;
    // Unless the page that was just drawn has the focus where somebody goes on.
    if (isOther && sheet.current?.contains(document.activeElement) !== true) sheet.current?.focus();
    before.current = handle;
  }, [handle, sheet]);
}

/** What was told on one page is not told on the next; what is told together with a change of page is. */
function useForgetting(screen: string, said: string, tell: (said: string) => void): void {
  const before = useRef({ screen, said });
  useEffect(() => {
    if (before.current.screen !== screen && before.current.said === said) tell("");
    before.current = { screen, said };
  }, [screen, said, tell]);
}
