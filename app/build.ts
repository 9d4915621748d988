/**
 * Builds what runs from dist/: the page (dist/page), the desktop program (dist/main, dist/preload) and the command line (dist/cli).
 * Usage: node app/build.ts [--if-stale] [--page] [--desktop] [--command]; without a product, all.
 */
import { readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { defaultLocale, wordsFor } from "../core/index.ts";
import { buildOnce, builtFolder, type Product, projectFolder } from "./sources.ts";

const words = wordsFor(defaultLocale).hosts;

async function buildPage(): Promise<void> {
  const { build } = await import("vite");
  // Whoever builds it, tests too, gets the page that is shipped.
  process.env.NODE_ENV = "production";
  await build({ configFile: join(projectFolder, "vite.config.ts"), root: join(projectFolder, "renderer") });
}

/** Started as a thread by what lies beside it: in each bundle that has the service. */
const trialsWorker = "app/service/uncertainty/trials-worker.ts";

/** Bundles by their names, each from its first file. */
const entries = (files: Readonly<Record<string, string>>) =>
  Object.entries(files).map(([out, file]) => ({ in: join(projectFolder, file), out }));

/**
 * The main process and the service's process as ES modules, the preload as one CommonJS file, as its sandbox wants. Packages stay
 * outside: they bring files of their own (fonts), and are shipped beside the bundles.
 */
async function buildDesktop(): Promise<void> {
  const { build } = await import("esbuild");
  const shared = {
    bundle: true,
    platform: "node",
    target: "node24",
    logLevel: "warning",
    legalComments: "none",
  } as const;
  for (const folder of ["main", "preload"]) rmSync(join(builtFolder, folder), { recursive: true, force: true });
  await build({
    ...shared,
    entryPoints: entries({
      main: "app/main/main.ts",
      "service-process": "app/main/service-process.ts",
      "trials-worker": trialsWorker,
    }),
    outdir: join(builtFolder, "main"),
    format: "esm",
    splitting: true,
    packages: "external",
  });
  await build({
    ...shared,
    entryPoints: [join(projectFolder, "app/preload/preload.ts")],
    outfile: join(builtFolder, "preload", "preload.cjs"),
    format: "cjs",
    external: ["electron"],
  });
}

/** Packages that bring files of their own, which they find from where they lie. */
const packagesWithFiles = [
  "pdfkit",
  "fontkit",
  "linebreak",
  "@expo-google-fonts/*",
  "@fontsource-variable/*",
  "dejavu-fonts-ttf",
];

/** The command line in a few files: most of what `boilbench` takes to start is finding and reading hundreds of small ones. */
async function buildCommand(): Promise<void> {
  const { build } = await import("esbuild");
  const folder = join(builtFolder, "cli");
  rmSync(folder, { recursive: true, force: true });
  await build({
    entryPoints: entries({ main: "app/cli/main.ts", "trials-worker": trialsWorker }),
    outdir: folder,
    bundle: true,
    splitting: true,
    format: "esm",
    platform: "node",
    target: "node24",
    logLevel: "warning",
    legalComments: "none",
    external: packagesWithFiles,
    // Some of the bundled packages are CommonJS and ask for `require`.
    banner: {
      js: 'import { createRequire as requireFor } from "node:module"; const require = requireFor(import.meta.url);',
    },
  });
}

const products = ["page", "desktop", "command"] as const satisfies readonly Product[];
const builders: Record<Product, () => Promise<void>> = {
  page: buildPage,
  desktop: buildDesktop,
  command: buildCommand,
};

/** Builds a product where its sources have changed (or always), and says so in one line. True where it did. */
export async function buildProduct(
  product: Product,
  options: { always: boolean; say: (line: string) => void },
): Promise<boolean> {
  const start = performance.now();
  const seconds = () => ((performance.now() - start) / 1000).toFixed(1);
  if (!(await buildOnce(product, options.always, builders[product]))) return false;
  if (product === "desktop") options.say(words.desktopBuilt(seconds()));
  else if (product === "command") options.say(words.commandBuilt(seconds()));
  else {
    const files = readdirSync(join(builtFolder, "page"), { recursive: true, withFileTypes: true });
    options.say(words.pageBuilt(files.filter((entry) => entry.isFile()).length, seconds()));
  }
  return true;
}

// Not import.meta.main: the script is started through app/require-node.cjs.
if (process.argv[1] === import.meta.filename) {
  const wanted = products.filter((product) => process.argv.includes(`--${product}`));
  const always = !process.argv.includes("--if-stale");
  let made = 0;
  try {
    for (const product of wanted.length > 0 ? wanted : products) {
      if (await buildProduct(product, { always, say: console.log })) made += 1;
    }
    if (made === 0) console.log(words.upToDate);
  } catch (error) {
    console.error(words.buildFailed(error instanceof Error ? error.message : String(error)));
    process.exitCode = 1;
  }
}
