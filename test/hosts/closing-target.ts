/** Waits for a signal, with files that take the given time (milliseconds) to close; says what it does. For closing.test.ts. */
import { setTimeout as wait } from "node:timers/promises";
import { closeOnSignals } from "../../app/host/close-on-signals.ts";

const takes = Number(process.argv[2]);
closeOnSignals(
  {
    stopListening: async () => {
      console.log("stopped listening");
      if (process.argv[3] === "fails") throw new Error("the port was gone");
    },
    close: async () => {
      console.log("closing");
      await wait(takes);
      console.log("closed");
    },
    sayLate: () => console.log("late"),
  },
  1_000,
);
setInterval(() => undefined, 1_000);
console.log("ready");
