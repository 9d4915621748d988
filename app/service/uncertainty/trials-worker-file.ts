/** Where the worker's file lies: beside this one, as a source or as it was bundled. */
export function trialsWorkerFile(): URL {
  return import.meta.url.endsWith(".ts")
    ? new URL("./trials-worker.ts", import.meta.url)
    : new URL("./trials-worker.js", import.meta.url);
}
