import { formatFixed } from "../../core/index.ts";
import { useLocale, useWords } from "../state/language.tsx";
import { addressOfRun, addressOfScreen, type Route } from "../state/route.ts";
import { useStudy } from "../state/study.tsx";
import { useAskWho, useWho } from "../state/who.ts";
import { Name } from "./name.tsx";

/** Which study this is, how far it is, and who is writing in it. */
export function CoverStudy({ route }: { route: Route }) {
  const { separator, cover } = useWords();
  const { view } = useStudy();
  return (
    <div className="cover-study">
      <a
        className="study-link"
        href={addressOfScreen(route, "studies")}
        title={view?.name}
        aria-keyshortcuts="Control+O"
      >
        <Name text={view?.name ?? cover.noStudy} />
        <span aria-hidden="true">▾</span>
        <span className="visually-hidden">
          {separator}
          {cover.otherStudy}
        </span>
      </a>
      {view !== null && (
        <span className="small cover-line">
          <span className="soft">
            {cover.runs(view.runs - view.leftOut - view.onBench.length, view.runs - view.onBench.length)}
            {separator}
            <OnBench route={route} />
            <Questions />
          </span>
          <Writer />
        </span>
      )}
      {view?.isExample === true && <span className="small invented">{cover.example}</span>}
    </div>
  );
}

/** Runs that are not finished, with the way to the first of them. */
function OnBench({ route }: { route: Route }) {
  const { cover: words, separator } = useWords();
  const { view } = useStudy();
  const [first] = view?.onBench ?? [];
  if (view === null || first === undefined) return null;
  const more = view.onBench.length - 1;
  return (
    <>
      {words.onBench}{" "}
      <a className="cover-run" href={addressOfRun(route, first.id)}>
        <Name text={first.run} />
      </a>
      {more > 0 && ` ${words.onBenchMore(more)}`}
      {separator}
    </>
  );
}

function Questions() {
  const words = useWords().cover;
  const locale = useLocale();
  const { view } = useStudy();
  if (view === null) return null;
  if (view.looking === null) return words.questions(view.openQuestions);
  return words.looking(formatFixed(Math.floor(view.looking * 100), 0, locale));
}

function Writer() {
  const words = useWords().cover;
  const who = useWho();
  const { change } = useAskWho();
  return (
    <button type="button" className="plain writer" title={who ?? undefined} onClick={() => void change()}>
      <Name text={who === null ? words.nobody : words.writing(who)} />
      <span className="visually-hidden">, {words.changeWho}</span>
    </button>
  );
}
