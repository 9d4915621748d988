import { charts } from "./charts.ts";
import { hosts } from "./hosts.ts";
import { problems } from "./problems.ts";
import { screens } from "./screens.ts";

/** All English words, by where they are used. Its type is what every other language must fill. */
export const english = { charts, hosts, problems, screens };
