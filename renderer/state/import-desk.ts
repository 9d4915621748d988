import { useCallback, useEffect, useRef, useState } from "react";
import { fileByteLimit, type ImportView, type Refusal, type StudyView } from "../../app/contract/index.ts";
import type { Answer } from "../api.ts";
import { forget, recall, remember } from "./desk-memory.ts";
import { type CarriedFile, carry } from "./file.ts";
import { askHost, isRefusal, useHost } from "./host.ts";

export interface Mend {
  readonly row: number;
  readonly column: number;
  readonly text: string;
  /** What the file says. */
  readonly was: string;
}

/** Where a file is taken: a study of its own, or the open one of this name. */
export type TakenInto = { readonly kind: "new" } | { readonly kind: "open"; readonly study: string };

/** What was wrong with the files before anything was read. */
export type Complaint =
  | { readonly kind: "tooLarge"; readonly file: string }
  | { readonly kind: "unreadable"; readonly file: string }
  | { readonly kind: "notThese"; readonly files: readonly string[] };

/** A file on its way in. It stays on the desk while other pages are looked at. */
export interface ImportDeskState {
  readonly readings: CarriedFile | null;
  readonly settings: CarriedFile | null;
  readonly view: ImportView | null;
  readonly mends: ReadonlyMap<string, Mend>;
  /** As typed; null: as the file suggests. */
  readonly studyName: string | null;
  readonly waiting: boolean;
  readonly refusal: Refusal | null;
  readonly complaint: Complaint | null;
}

export interface ImportDesk extends ImportDeskState {
  readonly take: (files: readonly File[]) => Promise<void>;
  readonly mend: (mend: Mend) => void;
  readonly leaveOut: (row: number) => void;
  readonly putBack: (row: number) => void;
  readonly rename: (name: string) => void;
  /** The study that is open afterwards; null where it was not taken. */
  readonly accept: (into: TakenInto, who: string) => Promise<StudyView | null>;
  readonly putAway: () => void;
}

const empty: ImportDeskState = {
  readings: null,
  settings: null,
  view: null,
  mends: new Map(),
  studyName: null,
  waiting: false,
  refusal: null,
  complaint: null,
};

export const mendKey = (row: number, column: number) => `${row}:${column}`;

const isSettings = (file: File) => /\.json$/i.test(file.name);
const isReadings = (file: File) => /\.(csv|tsv|txt)$/i.test(file.name);

/** Which of the files are readings and settings, or what is wrong with them. */
function sortFiles(files: readonly File[]): { readings: File | null; settings: File | null } | Complaint {
  const readings = files.filter(isReadings);
  const settings = files.filter(isSettings);
  const rest = [
    ...files.filter((file) => !isReadings(file) && !isSettings(file)),
    ...readings.slice(1),
    ...settings.slice(1),
  ];
  if (rest.length > 0) return { kind: "notThese", files: rest.map((file) => file.name) };
  const large = files.find((file) => file.size > fileByteLimit);
  if (large !== undefined) return { kind: "tooLarge", file: large.name };
  return { readings: readings[0] ?? null, settings: settings[0] ?? null };
}

/** Reads the chosen files, has them checked, and passes on what is mended; one thing after the other. */
export function useImportDesk(keptId: string | null, keep: (importId: string | null) => void): ImportDesk {
  const [state, setState] = useState<ImportDeskState>(empty);
  const now = useRef(state);
  now.current = state;
  const queue = useRef<Promise<unknown>>(Promise.resolve());
  /** What the host did not hear: done again as soon as it answers. */
  const unheard = useRef<(() => Promise<void>) | null>(null);
  const { trouble, attempt } = useHost();

  const change = useCallback((part: Partial<ImportDeskState>) => {
    now.current = { ...now.current, ...part };
    setState(now.current);
  }, []);

  const inTurn = useCallback((work: () => Promise<void>) => {
    queue.current = queue.current.then(work, work);
    return queue.current as Promise<void>;
  }, []);

  const received = useCallback(
    (answer: Answer<"import.check"> | Answer<"import.mend">, again: () => Promise<void>): boolean => {
      unheard.current = answer.ok || isRefusal(answer) ? null : again;
      if (answer.ok) change({ view: answer.value, refusal: null, waiting: false });
      else change({ waiting: false, ...(isRefusal(answer) ? { refusal: answer } : {}) });
      return answer.ok;
    },
    [change],
  );

  /** Sends all that is mended and all that is left out: the host takes the rows as they are named last. */
  const sendMends = useCallback(
    async (leftOut: readonly number[]) => {
      const importId = now.current.view?.importId;
      if (importId === undefined) return;
      const cells = [...now.current.mends.values()].map(({ row, column, text }) => ({ row, column, text }));
      const answer = await askHost<"import.mend">({
        kind: "import.mend",
        importId,
        cells,
        leaveOutRows: [...leftOut],
      });
      received(answer, () => sendMends(leftOut));
    },
    [received],
  );

  /** Reads the files anew and does again what was mended in them. */
  const check = useCallback(
    async (leftOut: readonly number[]) => {
      const { readings, settings, mends } = now.current;
      if (readings === null) return;
      change({ waiting: true, refusal: null, complaint: null });
      const answer = await askHost<"import.check">({ kind: "import.check", readings, settings });
      if (!received(answer, () => check(leftOut))) return;
      keep(now.current.view?.importId ?? null);
      if (mends.size > 0 || leftOut.length > 0) await sendMends(leftOut);
    },
    [change, received, sendMends, keep],
  );

  const take = useCallback(
    (files: readonly File[]) =>
      inTurn(async () => {
        const sorted = sortFiles(files);
        if ("kind" in sorted) {
          change({ complaint: sorted });
          return;
        }
        const file = sorted.readings ?? sorted.settings;
        try {
          if (sorted.readings !== null) {
            change({ readings: await carry(sorted.readings), mends: new Map(), studyName: null, view: null });
          }
          if (sorted.settings !== null) change({ settings: await carry(sorted.settings) });
        } catch {
          change({ complaint: { kind: "unreadable", file: file?.name ?? "" } });
          return;
        }
        change({ complaint: null });
        await check(leftOutOf(now.current.view));
      }),
    [inTurn, change, check],
  );

  const mend = useCallback(
    (made: Mend) => {
      const key = mendKey(made.row, made.column);
      const mends = new Map(now.current.mends);
      const was = mends.get(key)?.was ?? made.was;
      mends.set(key, { ...made, was });
      change({ mends, waiting: true });
      void inTurn(() => sendMends(leftOutOf(now.current.view)));
    },
    [change, inTurn, sendMends],
  );

  const leaveOut = useCallback(
    (row: number) => {
      change({ waiting: true });
      void inTurn(() => sendMends([...leftOutOf(now.current.view), row]));
    },
    [change, inTurn, sendMends],
  );

  const putBack = useCallback(
    (row: number) => {
      change({ waiting: true });
      void inTurn(() => sendMends(leftOutOf(now.current.view).filter((other) => other !== row)));
    },
    [change, inTurn, sendMends],
  );

  const rename = useCallback((studyName: string) => change({ studyName }), [change]);

  const putAway = useCallback(() => {
    change(empty);
    forget();
    keep(null);
  }, [change, keep]);

  const accept = useCallback(
    async (into: TakenInto, who: string) => {
      const { view, studyName } = now.current;
      if (view === null) return null;
      change({ waiting: true, refusal: null });
      const answer = await askHost<"import.accept">({
        kind: "import.accept",
        importId: view.importId,
        into: into.kind === "open" ? into : { kind: "new", studyName: (studyName ?? view.suggestedName).trim() },
        who,
      });
      if (answer.ok) {
        change(empty);
        forget();
        return answer.value;
      }
      change({ waiting: false, ...(isRefusal(answer) ? { refusal: answer } : {}) });
      return null;
    },
    [change],
  );

  // A reload: the host still holds the file that was on the desk, and tells it again when nothing is changed in it.
  useEffect(() => {
    if (keptId === null || now.current.view !== null || now.current.waiting) return;
    const { mends, leftOut, studyName } = recall(keptId);
    change({ waiting: true, studyName, mends: new Map(mends.map((made) => [mendKey(made.row, made.column), made])) });
    const restore = async () => {
      const answer = await askHost<"import.mend">({
        kind: "import.mend",
        importId: keptId,
        cells: [],
        leaveOutRows: [...leftOut],
      });
      if (!received(answer, restore) && isRefusal(answer)) keep(null);
    };
    void inTurn(restore);
  }, [keptId, change, inTurn, received, keep]);

  const { view, mends, studyName } = state;
  useEffect(() => {
    if (view === null) return;
    remember({ importId: view.importId, leftOut: leftOutOf(view), mends: [...mends.values()], studyName });
  }, [view, mends, studyName]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: each attempt is a reason to say again what was not heard.
  useEffect(() => {
    const again = unheard.current;
    if (again === null) return;
    unheard.current = null;
    void inTurn(again);
  }, [trouble === null, attempt, inTurn]);

  return {
    ...state,
    take,
    mend,
    leaveOut,
    putBack,
    rename,
    accept,
    putAway,
  };
}

function leftOutOf(view: ImportView | null): number[] {
  return view === null ? [] : view.rows.filter((row) => row.leftOut).map((row) => row.row);
}
