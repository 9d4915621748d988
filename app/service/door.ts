import { createHash } from "node:crypto";
import * as v from "valibot";
import { defaultLocale, formatFixed, type Locale, type StudyResults, wordsFor } from "../../core/index.ts";
import {
  type ComparisonChoice,
  type Door,
  type ExportedFile,
  fileByteLimit,
  type Refusal,
  type Reply,
  type ReplyValues,
  type Request,
  type RequestKind,
  request as requestSchema,
} from "../contract/index.ts";
import { renderHtml } from "../report/index.ts";
import { exampleFolder, openExample } from "./example.ts";
import { ImportDesk } from "./import-desk.ts";
import type { OpenStudy, SourceFile } from "./open-study.ts";
import { outputFile, reportOf } from "./output-files.ts";
import { Refused, refuse } from "./refused.ts";
import { compareView, wholeChoice } from "./view/compare-view.ts";
import { runsView } from "./view/runs-view.ts";
import { studyView } from "./view/study-view.ts";

export interface DoorOptions {
  readonly locale?: Locale;
  /** Folder of the example study; the sources' own unless said. */
  readonly exampleFolder?: string;
}

/** How many report previews are kept: the one on screen, and a few behind it. */
const mostPreviews = 8;

type Handlers = {
  [K in RequestKind]: (asked: Extract<Request, { kind: K }>) => ReplyValues[K] | Promise<ReplyValues[K]>;
};

/** The service behind its one door: it opens on the example study. */
export function createDoor(options: DoorOptions = {}): Door {
  const locale = options.locale ?? defaultLocale;
  const words = wordsFor(locale).service;
  const folder = options.exampleFolder ?? exampleFolder;
  const desk = new ImportDesk(locale);
  const previews = new Map<string, { html: string; contentSecurityPolicy: string }>();
  let opened: OpenStudy | null = null;
  const example = (): OpenStudy => {
    try {
      return openExample(folder, locale);
    } catch {
      return refuse(words.exampleMissing);
    }
  };
  const open = (): OpenStudy => {
    opened ??= example();
    return opened;
  };
  const reportChoice = (results: StudyResults, choice: ComparisonChoice) => wholeChoice(results, choice);

  const handlers: Handlers = {
    "study.show": () => studyView(open()),
    "study.openExample": () => {
      opened = example();
      return studyView(opened);
    },
    "runs.show": () => runsView(open().results),
    "import.check": ({ readings, settings }) =>
      desk.check(sourceFile(readings, locale), settings === null ? null : sourceFile(settings, locale)),
    "import.mend": ({ importId, cells, leaveOutRows }) => desk.mend(importId, cells, leaveOutRows),
    "import.accept": ({ importId, studyName }) => {
      opened = desk.accept(importId, studyName);
      return studyView(opened);
    },
    "compare.show": ({ choice }) => compareView(open().results, choice),
    "report.prepare": ({ choice }) => {
      const document = reportOf(open(), reportChoice(open().results, choice));
      const { html, contentSecurityPolicy } = renderHtml(document);
      const id = createHash("sha256").update(html).digest("hex").slice(0, 32);
      previews.delete(id);
      previews.set(id, { html, contentSecurityPolicy });
      for (const oldest of previews.keys()) {
        if (previews.size <= mostPreviews) break;
        previews.delete(oldest);
      }
      return { previewPath: `preview/${id}`, title: document.title, finding: document.finding };
    },
    export: async ({ what, choice }): Promise<ExportedFile> => {
      const { fileName, mediaType, content } = await outputFile(open(), what, reportChoice(open().results, choice));
      return { fileName, mediaType, contentBase64: Buffer.from(content).toString("base64") };
    },
  };

  async function answer<K extends RequestKind>(asked: Extract<Request, { kind: K }>): Promise<Reply<K>> {
    const handle = handlers[asked.kind] as (one: typeof asked) => ReplyValues[K] | Promise<ReplyValues[K]>;
    return { ok: true, value: await handle(asked) };
  }

  return {
    async ask(message) {
      const parsed = v.safeParse(requestSchema, message);
      if (!parsed.success) {
        const [issue] = parsed.issues;
        const path = issue === undefined ? "" : (v.getDotPath(issue) ?? "");
        return refusal("refused", words.badRequest(path === "" ? "kind" : path.slice(0, 200)));
      }
      try {
        return (await answer(parsed.output)) as Reply;
      } catch (error) {
        if (error instanceof Refused) return refusal("refused", error.message);
        console.error(error);
        return refusal("failed", words.failed);
      }
    },
    preview: (id) => previews.get(id) ?? null,
  };
}

function refusal(reason: Refusal["reason"], message: string): Refusal {
  return { ok: false, reason, message };
}

function sourceFile(file: { readonly name: string; readonly contentBase64: string }, locale: Locale): SourceFile {
  const bytes = Buffer.from(file.contentBase64, "base64");
  if (bytes.length > fileByteLimit) {
    refuse(wordsFor(locale).service.tooLarge(formatFixed(fileByteLimit / 1024 / 1024, 0, locale)));
  }
  return { name: file.name, bytes };
}
