export type { Door, Refusal, Reply, ReplyValues } from "./replies.ts";
export * from "./requests.ts";
export type * from "./views.ts";
