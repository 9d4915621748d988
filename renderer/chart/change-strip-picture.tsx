import type { ChangeStrip } from "../../core/index.ts";

const width = 148;
const height = 22;
const middle = width / 2;
/** Room at either end for the round cap of the line. */
const reach = middle - 6;

/** A small interval about "no change", for a cell of a table. An end that is not known runs off to an arrow. */
export function ChangeStripPicture({ strip }: { strip: ChangeStrip }) {
  const { change, extent } = strip;
  const at = (value: number) => middle + Math.max(-1, Math.min(1, value / extent)) * reach;
  const isBeyond = (value: number | null) => value === null || Math.abs(value) > extent;
  const lower = change.lower === null ? at(-extent) : at(change.lower);
  const upper = change.upper === null ? at(extent) : at(change.upper);
  const y = height / 2;
  return (
    <svg
      className={`strip strip-${strip.tone}`}
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={strip.textAlternative}
    >
      <line className="strip-zero" x1={middle} x2={middle} y1={0} y2={height} />
      <line className="strip-line" x1={lower} x2={upper} y1={y} y2={y} />
      {isBeyond(change.lower) && (
        <path className="strip-arrow" d={`M${lower + 4} ${y - 5}L${lower - 4} ${y}L${lower + 4} ${y + 5}`} />
      )}
      {isBeyond(change.upper) && (
        <path className="strip-arrow" d={`M${upper - 4} ${y - 5}L${upper + 4} ${y}L${upper - 4} ${y + 5}`} />
      )}
      {Math.abs(change.value) <= extent && <circle className="strip-dot" cx={at(change.value)} cy={y} r={5} />}
    </svg>
  );
}
