import * as v from "valibot";
import { type Door, type Reply, request, type StudyView } from "../../app/contract/index.ts";
import { emptyStudyView } from "../build/study-view.ts";

const study: StudyView = { ...emptyStudyView, name: "Skirt trial", isExample: true };

export const previewPolicy = "default-src 'none'; style-src 'sha256-abc='; sandbox; frame-ancestors 'self'";

/** A door that checks messages as the real one does, keeps one study, and counts what got through to it. */
export interface SmallDoor extends Door {
  /** Messages that reached the door, whether it took them or not. */
  readonly asked: unknown[];
  /** Paths that a host had it open. */
  readonly openedFiles: string[];
  readonly closed: () => boolean;
}

export function smallDoor(): SmallDoor {
  const asked: unknown[] = [];
  const openedFiles: string[] = [];
  let closed = false;
  return {
    asked,
    openedFiles,
    closed: () => closed,
    async ask(message): Promise<Reply> {
      asked.push(message);
      const parsed = v.safeParse(request, message);
      if (!parsed.success) return { ok: false, reason: "refused", message: "not a request" };
      if (parsed.output.kind === "study.show") return { ok: true, value: study };
      if (parsed.output.kind === "import.check") throw new Error("secret detail of a failure");
      return { ok: false, reason: "refused", message: `${parsed.output.kind} is not kept here` };
    },
    preview(id) {
      return id === "report-1"
        ? { html: "<!doctype html><p>secret finding", contentSecurityPolicy: previewPolicy }
        : null;
    },
    async openFile(path) {
      openedFiles.push(path);
      if (path.includes("damaged")) return { ok: false, reason: "refused", message: `${path} is damaged` };
      return { ok: true, study: "study-1" };
    },
    async close() {
      closed = true;
    },
  };
}
