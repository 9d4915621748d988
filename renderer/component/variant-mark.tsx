import { type ShapeName, variantShape } from "../../app/chart/index.ts";
import { Name } from "./name.tsx";

/** How many colours the tokens hold; shapes go on longer, and the label is always there. */
const colours = 6;

/** Outlines on a field of 16 by 16, the same shapes that the charts draw. */
const outlines: Record<ShapeName, string> = {
  circle: "M8 2.5a5.5 5.5 0 1 1 0 11a5.5 5.5 0 1 1 0 -11z",
  square: "M3 3h10v10h-10z",
  triangle: "M8 2.4L14 13.2H2z",
  diamond: "M8 1.5L14.5 8L8 14.5L1.5 8z",
  "inverted-triangle": "M8 13.6L2 2.8H14z",
  hexagon: "M2 8L5 2.8H11L14 8L11 13.2H5z",
  star: "M8 1L9.9 6H15L10.9 9.2L12.4 14.4L8 11.3L3.6 14.4L5.1 9.2L1 6H6.1z",
};

/** The shape and colour by which a variant is known in every table and chart. */
export function VariantMark({ index }: { index: number }) {
  return (
    <svg className={`variant-mark variant-${(index % colours) + 1}`} viewBox="0 0 16 16" aria-hidden="true">
      <path d={outlines[variantShape(index)]} />
    </svg>
  );
}

export function VariantName({ index, name }: { index: number; name: string }) {
  return (
    <span className="variant-name">
      <VariantMark index={index} />
      <Name text={name} />
    </span>
  );
}
