import type { ReportBlock } from "../../../core/index.ts";
import { printTheme } from "../../chart/index.ts";
import { balanceLines } from "../line-break.ts";
import type { Block } from "./block.ts";
import type { Backdrop, Element, Flow, Line } from "./flow.ts";
import { contentHeight, contentWidth, page, size } from "./page-measures.ts";
import { baselineOf, inkedLines, textLines } from "./text-lines.ts";
import { type InkedStyle, writeText } from "./write-text.ts";

type BlockOf<Kind extends ReportBlock["kind"]> = Extract<ReportBlock, { readonly kind: Kind }>;

const body: InkedStyle = { face: "text", size: size.body, colour: printTheme.ink };
const reference: InkedStyle = { ...body, size: size.reference };
const whole = { left: page.left, width: contentWidth, before: 0 };

/** Lines in one element, or several, that begin together with at least their first lines. */
function linesBlock(flow: Flow, before: number, lines: readonly Line[], end: () => void, backdrop?: Backdrop): Block {
  const unbroken = lines.findIndex((line, index) => index > 0 && !line.holdsToPrevious);
  const leading = heightOf(lines.slice(0, unbroken < 0 ? lines.length : unbroken));
  return {
    before,
    leading: Math.min(leading, contentHeight / 2),
    place() {
      flow.lines(lines, backdrop);
      end();
    },
  };
}

export function heightOf(lines: readonly Line[]): number {
  return lines.reduce((height, line, index) => height + line.height + (index === 0 ? 0 : line.before), 0);
}

export function paragraphBlock(flow: Flow, parent: Element, block: BlockOf<"paragraph">): Block {
  const element = flow.document.struct("P");
  parent.add(element);
  const plain = block.isReference === true ? reference : body;
  const style = block.tone === "soft" ? { ...body, size: size.small, colour: printTheme.inkSoft } : plain;
  return linesBlock(
    flow,
    block.tone === "soft" ? 4 : block.isReference === true ? 5 : 7,
    textLines(flow, element, block.text, style, whole),
    () => element.end(),
  );
}

/** A heading as a block whose `leading` is its own height; the page keeps it with what follows. */
export function headingBlock(flow: Flow, parent: Element, block: BlockOf<"heading">): Block {
  const element = flow.document.struct(`H${block.level}`);
  parent.add(element);
  const style: InkedStyle =
    block.level === 2
      ? { face: "voice", size: size.heading2, colour: printTheme.ink }
      : { face: "text-bold", size: size.heading3, colour: printTheme.ink };
  const lines = inkedLines(flow, element, balanceLines(block.text, style, contentWidth), style, whole);
  const held = lines.map((line, index) => ({ ...line, holdsToPrevious: index > 0 }));
  return linesBlock(flow, block.level === 2 ? 16 : 12, held, () => element.end());
}

export function listBlock(flow: Flow, parent: Element, block: BlockOf<"list">): Block {
  const list = flow.document.struct("L");
  parent.add(list);
  const indent = 14;
  const style = block.isReference === true ? reference : body;
  const lines = block.items.flatMap((text, index) => {
    const item = flow.document.struct("LI");
    const label = flow.document.struct("Lbl");
    const content = flow.document.struct("LBody");
    list.add(item);
    item.add(label);
    item.add(content);
    const place = { left: page.left + indent, width: contentWidth - indent, before: index === 0 ? 0 : 3 };
    const own = textLines(flow, content, text, style, place);
    return own.map((line, at): Line => {
      if (at > 0) return line;
      const bullet = (top: number) => {
        writeText(
          flow.document,
          "•",
          { ...style, colour: printTheme.inkSoft },
          page.left + 2,
          top + baselineOf(style, line.height),
        );
      };
      return { ...line, pieces: [{ element: label, draw: bullet }, ...line.pieces] };
    });
  });
  return linesBlock(flow, 7, lines, () => list.end());
}

/** Set apart by a line at its left; questions stand on the soft attention colour as well. */
export function asideBlock(flow: Flow, parent: Element, block: BlockOf<"aside">): Block {
  const section = flow.document.struct("Sect");
  parent.add(section);
  const isAttention = block.tone === "attention";
  const indent = 12;
  const padding = 8;
  const inner = { left: page.left + indent, width: contentWidth - indent - (isAttention ? indent : 0) };
  const paragraph = (text: string, style: InkedStyle, before: number): Line[] => {
    const element = flow.document.struct("P");
    section.add(element);
    return textLines(flow, element, text, style, { ...inner, before });
  };
  const style: InkedStyle = { ...body, size: size.aside };
  const title = paragraph(block.title, { ...style, face: "text-bold" }, 0);
  const texts = block.texts.flatMap((text, index) => paragraph(text, style, index === 0 ? 1 : 4));
  // The title is never left alone, and the whole is not broken unless it is long.
  const isShort = heightOf([...title, ...texts]) < contentHeight / 3;
  const lines = [...title, ...texts].map((line, index) => ({
    ...line,
    holdsToPrevious: index > 0 && (isShort || index <= title.length || line.holdsToPrevious),
  }));
  const { document } = flow;
  const backdrop: Backdrop = (top, bottom) => {
    const height = bottom - top + 2 * padding;
    if (isAttention) document.rect(page.left, top - padding, contentWidth, height).fill(printTheme.attentionSoft);
    const colour = isAttention ? printTheme.attention : printTheme.ruleStrong;
    document.rect(page.left, top - padding, isAttention ? 2.5 : 1, height).fill(colour);
  };
  const inside = linesBlock(flow, 14, lines, () => section.end(), backdrop);
  return {
    before: inside.before,
    leading: inside.leading + 2 * padding,
    place() {
      if (flow.room < inside.leading + 2 * padding) flow.nextPage();
      flow.y += padding;
      inside.place();
      flow.y += padding;
    },
  };
}
