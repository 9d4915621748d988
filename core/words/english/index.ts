import { charts } from "./charts.ts";
import { problems } from "./problems.ts";

/** All English words, by where they are used. Its type is what every other language must fill. */
export const english = { charts, problems };
