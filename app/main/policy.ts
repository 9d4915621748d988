import { pageOrigin, pageScheme } from "../host/desktop-names.ts";
import { previewIdOf } from "../host/page-policy.ts";

/** What windows may do. Pure: Electron is not imported here, so that the tables of hostile inputs test it anywhere. */

/** The path of an address under our own origin; null for every other address. A name, password, port or query is never ours. */
function ownPath(address: string): string | null {
  // As it is written, too: a parser of addresses drops blanks and control characters from them.
  if (!address.startsWith(`${pageOrigin}/`) || !/^[\x21-\x7e]+$/.test(address) || !URL.canParse(address)) return null;
  const url = new URL(address);
  if (url.protocol !== `${pageScheme}:` || `${pageScheme}://${url.host}` !== pageOrigin) return null;
  return url.username === "" && url.password === "" && url.search === "" ? url.pathname : null;
}

/** The window itself shows the page and nothing else; what it shows is chosen within the page. */
export function mayNavigateWindow(address: string): boolean {
  return ownPath(address) === "/";
}

/** A frame in it shows a report's preview and nothing else. */
export function mayNavigateFrame(address: string): boolean {
  const path = ownPath(address);
  return path !== null && previewIdOf(path) !== null;
}

/** Messages are taken from our page in the window itself: not from a frame in it, and not from what a frame became. */
export function mayAsk(sender: { readonly address: string; readonly isTopFrame: boolean } | null): boolean {
  return sender?.isTopFrame === true && mayNavigateWindow(sender.address);
}

/** What a page may use of the machine besides its window: nothing. Copying goes by the keys, files come by the page's own choosing. */
export function mayUse(_permission: string): boolean {
  return false;
}

/** The address that shows a study, as the service named it. */
export function studyAddress(study: string): string {
  return `${pageOrigin}/#/study?study=${encodeURIComponent(study)}`;
}

/** The study that a window shows by its address; null where it names none, or where the window is not on our page. */
export function studyShown(address: string): string | null {
  if (!mayNavigateWindow(address)) return null;
  const query = new URL(address).hash.split("?")[1] ?? "";
  return new URLSearchParams(query).get("study");
}

export type PageAnswer =
  | { readonly kind: "file"; readonly path: string }
  | { readonly kind: "preview"; readonly id: string };

/** What is asked of the page's scheme; null is refused. No query, no encoded letters, no other host. */
export function pageRequest(method: string, address: string): PageAnswer | null {
  const path = ownPath(address);
  if (method !== "GET" || path === null || path.includes("%")) return null;
  const id = previewIdOf(path);
  return id === null ? { kind: "file", path } : { kind: "preview", id };
}
