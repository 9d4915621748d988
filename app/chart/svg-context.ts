import type { MarkedContext, MarkName } from "./marked-context.ts";
import {
  type Clip,
  type Fill,
  type MeasureFont,
  type PlacedText,
  type Stroke,
  VectorContext,
} from "./vector-context.ts";
import type { Segment } from "./vector-path.ts";

/** Text made safe between tags and in double-quoted attributes of HTML and SVG. */
export function escapeMarkup(text: string): string {
  return text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;")
    .replaceAll("'", "&#39;");
}

/**
 * Writes what is drawn as SVG elements. Everything is said in presentation attributes, so that a policy without inline styles
 * shows it whole. Marks become groups with a class and a title, which a pointer shows.
 */
export class SvgContext extends VectorContext implements MarkedContext {
  readonly #elements: string[] = [];
  readonly #definitions: string[] = [];
  readonly #clipNames = new Map<string, string>();
  readonly #prefix: string;

  /** `prefix`: begins every id; distinct among the charts of one page. */
  constructor(measure: MeasureFont, prefix: string) {
    super(measure);
    this.#prefix = prefix;
  }

  /** The elements drawn so far, without the svg element round them. */
  get content(): string {
    const definitions = this.#definitions.length > 0 ? `<defs>${this.#definitions.join("")}</defs>` : "";
    return definitions + this.#elements.join("");
  }

  beginMark(name: MarkName, title: string): void {
    this.#elements.push(`<g class="${name}">${title === "" ? "" : `<title>${escapeMarkup(title)}</title>`}`);
  }
  endMark(): void {
    this.#elements.push("</g>");
  }

  protected override paintPath(path: readonly Segment[], clip: Clip, fill: Fill | null, stroke: Stroke | null): void {
    const attributes = [`d="${pathData(path)}"`, `fill="${fill === null ? "none" : escapeMarkup(fill.colour)}"`];
    if (fill !== null && fill.opacity < 1) attributes.push(`fill-opacity="${number(fill.opacity)}"`);
    if (fill?.rule === "evenodd") attributes.push('fill-rule="evenodd"');
    if (stroke !== null) attributes.push(...strokeAttributes(stroke));
    this.#elements.push(`<path ${attributes.join(" ")}${this.#clipAttribute(clip)}/>`);
  }

  protected override paintText({ text, x, y, font, fill }: PlacedText, clip: Clip): void {
    const attributes = [`x="${number(x)}"`, `y="${number(y)}"`, `font-size="${number(font.size)}"`];
    attributes.push(`font-weight="${font.weight}"`, `font-family="${escapeMarkup(font.family)}"`);
    attributes.push(`fill="${escapeMarkup(fill.colour)}"`);
    if (font.italic) attributes.push('font-style="italic"');
    if (fill.opacity < 1) attributes.push(`fill-opacity="${number(fill.opacity)}"`);
    this.#elements.push(`<text ${attributes.join(" ")}${this.#clipAttribute(clip)}>${escapeMarkup(text)}</text>`);
  }

  #clipAttribute(clip: Clip): string {
    if (clip.length === 0) return "";
    let inner = "";
    for (const path of clip) {
      const key = `${inner}|${pathData(path)}`;
      let name = this.#clipNames.get(key);
      if (name === undefined) {
        name = `${this.#prefix}-clip-${this.#clipNames.size + 1}`;
        this.#clipNames.set(key, name);
        const within = inner === "" ? "" : ` clip-path="url(#${inner})"`;
        this.#definitions.push(`<clipPath id="${name}"${within}><path d="${pathData(path)}"/></clipPath>`);
      }
      inner = name;
    }
    return ` clip-path="url(#${inner})"`;
  }
}

function strokeAttributes(stroke: Stroke): string[] {
  const attributes = [`stroke="${escapeMarkup(stroke.colour)}"`, `stroke-width="${number(stroke.width)}"`];
  if (stroke.cap !== "butt") attributes.push(`stroke-linecap="${stroke.cap}"`);
  if (stroke.join !== "miter") attributes.push(`stroke-linejoin="${stroke.join}"`);
  else if (stroke.miterLimit !== 4) attributes.push(`stroke-miterlimit="${number(stroke.miterLimit)}"`);
  if (stroke.dash.length > 0) attributes.push(`stroke-dasharray="${stroke.dash.map(number).join(" ")}"`);
  if (stroke.dash.length > 0 && stroke.dashOffset !== 0)
    attributes.push(`stroke-dashoffset="${number(stroke.dashOffset)}"`);
  if (stroke.opacity < 1) attributes.push(`stroke-opacity="${number(stroke.opacity)}"`);
  return attributes;
}

function pathData(path: readonly Segment[]): string {
  return path
    .map((segment) => {
      if (segment.kind === "close") return "Z";
      if (segment.kind === "curve") return `C${segment.points.map(number).join(" ")}`;
      return `${segment.kind === "move" ? "M" : "L"}${number(segment.x)} ${number(segment.y)}`;
    })
    .join("");
}

/** A hundredth of a pixel is finer than anybody sees. */
function number(value: number): string {
  return String(Math.round(value * 100) / 100 + 0);
}
