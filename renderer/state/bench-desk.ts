import { useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from "react";
import type { BenchFieldView, BenchRunView, BenchStepView, Refusal } from "../../app/contract/index.ts";
import { prepareSound } from "./bench-sound.ts";
import { dateAsRecorded, dayOf, timeAsRecorded, timeOf } from "./bench-time.ts";
import {
  type BenchSpot,
  benchKey,
  finishStep,
  partsOf,
  spotBeside,
  spotId,
  spotToBegin,
  walkOf,
} from "./bench-walk.ts";
import { type CellDesk, type CellDraft, type CellPlace, isOnDisk } from "./cell-desk.ts";
import { useMakeEdit } from "./change.ts";
import { isRefusal } from "./host.ts";
import type { Go, Route } from "./route.ts";
import { whoIsWriting } from "./who.ts";

/** A second press so soon after a stamp is a finger that slipped, ms. */
const bounce = 1_500;

/** One run on the Bench: what its fields show, what keys do in them, where the focus goes. */
export interface BenchDesk {
  readonly study: string;
  readonly run: BenchRunView;
  /** The step that is looked at; `finish` behind the last one. */
  readonly step: string;
  readonly cells: CellDesk;
  readonly isReadOnly: boolean;
  /** What is shown is as new as what was saved. */
  readonly isNewest: boolean;
  readonly isToday: boolean;
  readonly placeOf: (field: BenchFieldView) => CellPlace;
  readonly draftOf: (field: BenchFieldView) => CellDraft | undefined;
  /** What is recorded on the basis that is looked at. */
  readonly standsIn: (field: BenchFieldView) => string;
  readonly textOf: (field: BenchFieldView) => string;
  readonly refusalOf: (field: BenchFieldView) => Refusal | null;
  readonly isStamping: (field: BenchFieldView) => boolean;
  readonly type: (field: BenchFieldView, text: string) => void;
  readonly enter: (field: BenchFieldView, step: BenchStepView) => void;
  readonly back: (field: BenchFieldView, step: BenchStepView) => void;
  readonly leave: (field: BenchFieldView) => void;
  readonly restore: (field: BenchFieldView) => void;
  readonly stamp: (field: BenchFieldView, step: BenchStepView) => void;
  readonly takeOffered: (field: BenchFieldView) => void;
  readonly chooseBasis: (field: BenchFieldView, isOther: boolean) => void;
  readonly isUnfolded: (step: string) => boolean;
  readonly fold: (step: string, isUnfolded: boolean) => void;
  readonly partsOf: (step: BenchStepView) => ReturnType<typeof partsOf>;
  /** The field that has, or last had, the focus. */
  readonly focused: string | null;
  readonly focusedOn: (field: BenchFieldView) => void;
  readonly sendTo: (spot: BenchSpot, isNew?: boolean) => void;
  readonly openStep: (step: string) => void;
  /** To what comes behind a field. */
  readonly sendOn: (field: BenchFieldView, step: BenchStepView) => void;
  /** The step that was left last: what is odd in it is still told. */
  readonly cameFrom: string | null;
}

/** In the page's own writing of numbers, times and days; what it is not sure of stays as it was typed. */
function asRecorded(field: BenchFieldView, typed: string): string {
  if (field.group === "time") return timeAsRecorded(typed);
  if (field.group === "date") return dateAsRecorded(typed);
  const isNumber = field.group === "mass" || field.group === "temperature" || field.group === "number";
  return isNumber && /^\s*[-+−]?\d*,\d+\s*$/.test(typed) ? typed.trim().replace(",", ".") : typed;
}

interface DeskProps {
  study: string;
  run: BenchRunView;
  isNewest: boolean;
  isReadOnly: boolean;
  cells: CellDesk;
  route: Route;
  go: Go;
}

export function useBenchDesk({ study, run, isNewest, isReadOnly, cells, route, go }: DeskProps): BenchDesk {
  const make = useMakeEdit();
  const [unfolded, setUnfolded] = useState<ReadonlySet<string>>(new Set());
  const [bases, setBases] = useState<ReadonlyMap<string, boolean>>(new Map());
  const [stamping, setStamping] = useState<ReadonlySet<string>>(new Set());
  const [refusals, setRefusals] = useState<ReadonlyMap<string, Refusal>>(new Map());
  const [cameFrom, setCameFrom] = useState<string | null>(null);
  const [focused, setFocused] = useState<string | null>(null);
  const lastStamp = useRef(Number.NEGATIVE_INFINITY);

  const placeOf = useCallback(
    (field: BenchFieldView): CellPlace => {
      const isIn = field.other?.isIn ?? false;
      // What is recorded says itself on which basis it is; until something is, the choice counts.
      const isOther = field.text === "" ? (bases.get(benchKey(field)) ?? isIn) : isIn;
      const column = isOther && field.other !== null ? field.other.column : field.column;
      return { study, run: run.id, phase: field.phase, column };
    },
    [study, run.id, bases],
  );
  const draftOf = useCallback((field: BenchFieldView) => cells.draftOf(placeOf(field)), [cells, placeOf]);
  const standsIn = (field: BenchFieldView) => {
    const isIn = field.other === null || field.other.isIn === (placeOf(field).column === field.other.column);
    return isIn ? field.text : "";
  };
  const textOf = (field: BenchFieldView) => {
    const draft = draftOf(field);
    return draft === undefined || draft.status === "shown" ? standsIn(field) : draft.text;
  };
  const isHeld = useCallback(
    (field: BenchFieldView) => {
      const draft = draftOf(field);
      return (draft !== undefined && !isOnDisk(draft)) || refusals.has(benchKey(field));
    },
    [draftOf, refusals],
  );

  const isFilled = useCallback(
    (field: BenchFieldView) => {
      const draft = draftOf(field);
      return (draft === undefined || draft.status === "shown" ? field.text : draft.text).trim() !== "";
    },
    [draftOf],
  );

  const options = useMemo(() => ({ unfolded, isHeld, isFilled, focused }), [unfolded, isHeld, isFilled, focused]);
  const walk = useMemo(() => walkOf(run, options), [run, options]);
  const step = stepShown(run, route.step);
  useEffect(() => {
    if (route.step !== step) go({ step }, "replace");
  }, [route.step, step, go]);

  const { wish, sendTo } = useFocus(step, go);
  const openStep = (wanted: string) => {
    setCameFrom(wanted === step ? null : step);
    sendTo(spotToBegin(run, walk, wanted) ?? { step: wanted, field: null }, true);
  };
  // Somebody who comes to the Bench goes on where the run is.
  const isMet = useRef<string | null>(null);
  useEffect(() => {
    if (isMet.current === run.id || run.state !== "open") return;
    isMet.current = run.id;
    if (document.querySelector("dialog[open]") !== null) return;
    sendTo(spotToBegin(run, walk, step) ?? { step, field: null });
  }, [run, walk, step, sendTo]);

  const watched = useComingBack(cells, sendTo);
  const { settle } = cells;
  useEffect(() => {
    if (isNewest && run.id !== "") settle();
  }, [isNewest, run, settle]);

  const type = (field: BenchFieldView, text: string) => {
    const before = draftOf(field);
    cells.type(placeOf(field), before?.status === "saved" ? before.text : standsIn(field), text);
    setRefusals((all) => without(all, benchKey(field)));
  };
  const keep = (field: BenchFieldView): Promise<boolean> | null => {
    const draft = draftOf(field);
    if (draft === undefined || isOnDisk(draft)) return null;
    const text = asRecorded(field, draft.text);
    if (text !== draft.text) cells.type(placeOf(field), draft.was, text);
    return cells.save(placeOf(field));
  };
  const leave = (field: BenchFieldView) => {
    if (draftOf(field)?.status === "typing") void keep(field);
  };
  const takeOffered = (field: BenchFieldView) => {
    if (field.offered === null) return;
    type(field, field.offered.text);
    void cells.save(placeOf(field));
  };

  const stamp = async (field: BenchFieldView, clock: NonNullable<BenchStepView["clock"]>) => {
    const key = benchKey(field);
    const { phase } = field;
    lastStamp.current = performance.now();
    const pageTime = timeOf(new Date());
    const byPage = () => {
      type(field, pageTime);
      void cells.save(placeOf(field));
    };
    // The moment does not wait until somebody has said who they are.
    if (whoIsWriting() === null || phase === null) return byPage();
    setStamping((all) => new Set([...all, key]));
    setRefusals((all) => without(all, key));
    const answer = await make({ kind: "stamp", run: run.id, phase, column: clock.column });
    setStamping((all) => new Set([...all].filter((one) => one !== key)));
    if (answer?.ok === true) return;
    if (answer !== null && isRefusal(answer)) setRefusals((all) => new Map([...all, [key, answer]]));
    else byPage();
  };
  // A run that is going on keeps its date over midnight.
  const yesterday = new Date();
  yesterday.setDate(yesterday.getDate() - 1);
  const isToday = run.date === dayOf(new Date()) || (run.clock !== null && run.date === dayOf(yesterday));
  const clockOf = (field: BenchFieldView, of: BenchStepView) =>
    of.clock !== null && of.phase === field.phase && of.clock.column === field.column ? of.clock : null;

  const move = (to: BenchSpot | null, of: BenchStepView) => {
    if (to === null) return;
    setCameFrom(to.step === of.id ? cameFrom : of.id);
    sendTo(to);
  };
  const sendOn = (field: BenchFieldView, of: BenchStepView) =>
    move(spotBeside(run, walk, { step: of.id, field: benchKey(field) }, 1), of);

  const enter = (field: BenchFieldView, of: BenchStepView) => {
    prepareSound();
    const from: BenchSpot = { step: of.id, field: benchKey(field) };
    const to = spotBeside(run, walk, from, 1);
    const draft = draftOf(field);
    const clock = clockOf(field, of);
    const isEmpty = textOf(field) === "" && !stamping.has(benchKey(field));
    if (isReadOnly) {
      // Nothing is written, but all can be walked through.
    } else if (draft !== undefined && !isOnDisk(draft) && draft.text !== draft.was) {
      watched.current = { place: placeOf(field), from, to };
      void keep(field);
    } else {
      if (draft !== undefined && !isOnDisk(draft)) cells.drop(placeOf(field));
      if (isEmpty && field.offered !== null) {
        watched.current = { place: placeOf(field), from, to };
        takeOffered(field);
      } else if (isEmpty && clock !== null && isToday) {
        if (performance.now() - lastStamp.current < bounce) return;
        void stamp(field, clock);
      }
    }
    move(to, of);
  };
  const back = (field: BenchFieldView, of: BenchStepView) => {
    leave(field);
    const to = spotBeside(run, walk, { step: of.id, field: benchKey(field) }, -1);
    move(to, of);
  };

  const chooseBasis = (field: BenchFieldView, isOther: boolean) => {
    const before = placeOf(field);
    const draft = draftOf(field);
    const text = textOf(field);
    const isOpen = draft !== undefined && !isOnDisk(draft);
    const { other } = field;
    if (other === null || isReadOnly) return;
    const column = isOther ? other.column : field.column;
    setBases((all) => new Map([...all, [benchKey(field), isOther]]));
    if (column === before.column) return;
    if (isOpen) {
      // What is typed goes along to the other basis, and is saved there when the field is left.
      cells.drop(before);
      cells.type({ ...before, column }, "", draft.text);
    }
    if (standsIn(field) === "") return;
    const was = standsIn(field);
    const moved = [
      { phase: field.phase, column: before.column, text: "", was },
      ...(isOpen ? [] : [{ phase: field.phase, column, text, was: "" }]),
    ];
    void make({ kind: "cells", run: run.id, cells: moved, why: null }).then((answer) => {
      if (answer !== null && isRefusal(answer)) {
        setRefusals((all) => new Map([...all, [benchKey(field), answer]]));
        setBases((all) => new Map([...all, [benchKey(field), !isOther]]));
      }
    });
  };

  return {
    study,
    run,
    step,
    cells,
    isReadOnly,
    isNewest,
    isToday,
    placeOf,
    draftOf,
    standsIn,
    textOf,
    refusalOf: (field) => draftOf(field)?.refusal ?? refusals.get(benchKey(field)) ?? null,
    isStamping: (field) => stamping.has(benchKey(field)),
    type,
    enter,
    back,
    leave,
    restore: (field) => {
      if (draftOf(field)?.status !== "saving") cells.drop(placeOf(field));
      setRefusals((all) => without(all, benchKey(field)));
    },
    stamp: (field, of) => {
      const clock = clockOf(field, of);
      if (clock === null || performance.now() - lastStamp.current < bounce) return;
      prepareSound();
      void stamp(field, clock);
      sendOn(field, of);
    },
    takeOffered,
    chooseBasis,
    isUnfolded: (of) => unfolded.has(of),
    fold: (of, wanted) => {
      setUnfolded((all) => new Set(wanted ? [...all, of] : [...all].filter((one) => one !== of)));
      const there = run.steps.find(({ id }) => id === of);
      const folded = there === undefined ? undefined : partsOf(there, options).folded[0];
      if (wanted && folded !== undefined) wish.current = { step: of, field: benchKey(folded) };
    },
    partsOf: (of) => partsOf(of, options),
    focused,
    focusedOn: (field) => {
      setFocused(benchKey(field));
      cells.clearShown();
    },
    sendTo,
    openStep,
    sendOn,
    cameFrom,
  };
}

/** The step that the address names; where it names none, or one that is not, the one that is to be done next. */
function stepShown(run: BenchRunView, named: string | null): string {
  if (named === finishStep || run.steps.some(({ id }) => id === named)) return named ?? finishStep;
  return run.nextStep ?? finishStep;
}

/** Sends the focus to a field, also where its step is not drawn yet. */
function useFocus(step: string, go: Go) {
  const wish = useRef<BenchSpot | null>(null);
  // After each drawing: the wished field may just have come.
  useLayoutEffect(() => {
    if (wish.current !== null && focusOn(wish.current)) wish.current = null;
  });
  const sendTo = useCallback(
    (spot: BenchSpot, isNew = false) => {
      if (spot.step === step && focusOn(spot)) return;
      wish.current = spot;
      if (spot.step !== step) go({ step: spot.step }, isNew ? undefined : "replace");
    },
    [step, go],
  );
  return { wish, sendTo };
}

function focusOn(spot: BenchSpot): boolean {
  const element = document.getElementById(spotId(spot));
  if (element === null) return false;
  element.focus();
  if (element instanceof HTMLInputElement) element.select();
  return document.activeElement === element;
}

interface Watched {
  readonly place: CellPlace;
  readonly from: BenchSpot;
  readonly to: BenchSpot | null;
}

/** What Enter sent off and was refused calls the person back, unless they have gone on or have begun to type. */
function useComingBack(cells: CellDesk, sendTo: (spot: BenchSpot) => void) {
  const watched = useRef<Watched | null>(null);
  useEffect(() => {
    const waiting = watched.current;
    if (waiting === null) return;
    const draft = cells.draftOf(waiting.place);
    if (draft?.status === "typing" || draft?.status === "saving") return;
    watched.current = null;
    if (draft?.status !== "refused" || waiting.to === null) return;
    const focused = document.activeElement;
    const isThere = focused === null || focused === document.body || focused.id === spotId(waiting.to);
    const hasTyped = focused instanceof HTMLInputElement && focused.dataset.typed === "yes";
    if (isThere && !hasTyped) sendTo(waiting.from);
  }, [cells, sendTo]);
  return watched;
}

function without<V>(all: ReadonlyMap<string, V>, key: string): ReadonlyMap<string, V> {
  return all.has(key) ? new Map([...all].filter(([one]) => one !== key)) : all;
}
