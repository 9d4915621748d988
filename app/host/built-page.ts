import { readdirSync, readFileSync } from "node:fs";
import { extname, join, relative, sep } from "node:path";

export interface PageFile {
  readonly body: Buffer;
  readonly mediaType: string;
}

/** The built page by address ("/", "/assets/index-abc.js"). What is not in it does not exist: no path is ever joined to a folder. */
export type BuiltPage = ReadonlyMap<string, PageFile>;

const mediaTypes = new Map([
  [".html", "text/html; charset=utf-8"],
  [".js", "text/javascript; charset=utf-8"],
  [".css", "text/css; charset=utf-8"],
  [".json", "application/json"],
  [".svg", "image/svg+xml"],
  [".png", "image/png"],
  [".ico", "image/x-icon"],
  [".woff2", "font/woff2"],
  [".woff", "font/woff"],
  [".ttf", "font/ttf"],
  [".wasm", "application/wasm"],
]);

/** A pot over a flame: browsers ask for an icon whether the page names one or not. */
const icon = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><path d="M5 8h22v3H5zM7 12h18v5a4 4 0 0 1-4 4H11a4 4 0 0 1-4-4z" fill="#3b3a36"/><path d="M16 22c3 3 4 4 4 6a4 4 0 0 1-8 0c0-2 1-3 4-6z" fill="#b4531c"/></svg>`;

/** Reads the built page into memory. Throws where it has not been built. */
export function readBuiltPage(folder: string): BuiltPage {
  const page = new Map<string, PageFile>();
  page.set("/favicon.ico", { body: Buffer.from(icon), mediaType: "image/svg+xml" });
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    const file = join(entry.parentPath, entry.name);
    const address = `/${relative(folder, file).split(sep).join("/")}`;
    const mediaType = mediaTypes.get(extname(entry.name).toLowerCase());
    if (mediaType === undefined) throw new Error(`${file}: no media type is known for this kind of file`);
    page.set(address, { body: readFileSync(file), mediaType });
  }
  const index = page.get("/index.html");
  if (index === undefined) throw new Error(`${folder}: no index.html; build the page first`);
  page.set("/", index);
  return page;
}
