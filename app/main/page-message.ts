import type { Words } from "../../core/index.ts";
import { type Refusal, type Reply, requestByteLimit } from "../contract/index.ts";
import { shapeOf } from "../host/message-shape.ts";

/** Hands a page's message on to the door where it is no larger than any message may be; else says why not. */
export async function passOn(
  message: unknown,
  door: { ask(message: unknown): Promise<Reply> },
  refused: Pick<Words["hosts"]["refused"], "tooLarge" | "notPlain">,
): Promise<Reply> {
  const shape = shapeOf(message, requestByteLimit);
  if (shape === "fits") return door.ask(message);
  const text = shape === "tooLarge" ? refused.tooLarge(requestByteLimit / 1024 / 1024) : refused.notPlain;
  return { ok: false, reason: "refused", message: text } satisfies Refusal;
}
