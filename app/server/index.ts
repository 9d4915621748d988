export { type Listener, type ListenerLimits, type ListenerOptions, startListener, usualLimits } from "./listener.ts";
export { addressOfRunningHost, type OpenedInRunningHost, openInRunningHost } from "./second-start.ts";
export { type RunningHost, removeStateFile, stateFolder, writeStateFile } from "./state-file.ts";
