/**
 * What the page may do, in every host: only what came with it. No inline script or style, no eval, no address but its own
 * origin. `frame-src 'self'` is for the report's preview, which has a policy of its own.
 */
export const pageContentSecurityPolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self'",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "frame-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join("; ");

/** Headers of every answer of every host. What is neither the page nor a preview (a refusal, a reply) may do nothing at all. */
export const commonHeaders: Readonly<Record<string, string>> = {
  "Content-Security-Policy": "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  "X-Frame-Options": "DENY",
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Resource-Policy": "same-origin",
  "Permissions-Policy": "camera=(), geolocation=(), microphone=(), payment=(), usb=(), serial=()",
  "Cache-Control": "no-store",
};

/** Headers of the page's own files. */
export const pageHeaders: Readonly<Record<string, string>> = {
  ...commonHeaders,
  "Content-Security-Policy": pageContentSecurityPolicy,
};

/** Headers of a report's preview, whose policy comes with it. It can be framed by the page and by nothing else. */
export function previewHeaders(contentSecurityPolicy: string): Readonly<Record<string, string>> {
  return {
    ...commonHeaders,
    "Content-Security-Policy": contentSecurityPolicy,
    "Content-Type": "text/html; charset=utf-8",
    "X-Frame-Options": "SAMEORIGIN",
  };
}

/** The id in "/preview/ID", or null where the path is anything else. */
export function previewIdOf(path: string): string | null {
  return /^\/preview\/([A-Za-z0-9_-]{1,200})$/.exec(path)?.[1] ?? null;
}
