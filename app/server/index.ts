export { type Listener, type ListenerLimits, type ListenerOptions, startListener, usualLimits } from "./listener.ts";
export { addressOfRunningHost, type RunningHost, removeStateFile, stateFolder, writeStateFile } from "./state-file.ts";
