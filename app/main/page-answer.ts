import type { BuiltPage } from "../host/built-page.ts";
import { commonHeaders, pageHeaders, previewHeaders } from "../host/page-policy.ts";
import type { RemoteDoor } from "./door-over-port.ts";
import { pageRequest } from "./policy.ts";

/** Answers the page's scheme: from the page in memory, or with a report's preview under the preview's own policy. */
export async function answerPageRequest(
  request: { readonly method: string; readonly url: string },
  page: BuiltPage,
  door: Pick<RemoteDoor, "preview">,
): Promise<Response> {
  const wanted = pageRequest(request.method, request.url);
  if (wanted?.kind === "file") {
    const file = page.get(wanted.path);
    if (file !== undefined) {
      return new Response(new Uint8Array(file.body), { headers: { ...pageHeaders, "Content-Type": file.mediaType } });
    }
  }
  if (wanted?.kind === "preview") {
    const preview = await door.preview(wanted.id);
    if (preview !== null) return new Response(preview.html, { headers: previewHeaders(preview.contentSecurityPolicy) });
  }
  return new Response(null, { status: 404, headers: commonHeaders });
}
