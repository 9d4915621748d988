import { shownMoment } from "../state/moment.ts";

/** When something happened, on this machine's clock. */
export function Moment({ at }: { at: string }) {
  return (
    <time className="moment" dateTime={at} title={at}>
      {shownMoment(at)}
    </time>
  );
}
