export type * from "./bench-views.ts";
export type * from "./comparison-views.ts";
export type * from "./grid-views.ts";
export type { Door, Refusal, RefusedCell, Reply, ReplyValues } from "./replies.ts";
export * from "./requests.ts";
export type * from "./set-up-views.ts";
export type * from "./uncertainty-views.ts";
export type * from "./views.ts";
