import { page } from "./page-measures.ts";

export type Element = PDFKit.PDFStructureElement;

/** One line of a block: it can stand at the foot of one page while the next stands at the head of another. */
export interface Line {
  /** Distance to the line before; dropped at the head of a page. */
  readonly before: number;
  readonly height: number;
  /** What is drawn, each piece for the element of the structure tree that it belongs to. */
  readonly pieces: readonly { readonly element: Element; readonly draw: (top: number) => void }[];
  /** No page ends between this line and the one before. */
  readonly holdsToPrevious: boolean;
}

/** Something decorative behind or beside lines that stand together on a page: not part of what is read. */
export type Backdrop = (top: number, bottom: number) => void;

/** Places lines down the page and on to the next. */
export class Flow {
  readonly document: PDFKit.PDFDocument;
  /** Where the next block begins. */
  y: number = page.top;

  constructor(document: PDFKit.PDFDocument) {
    this.document = document;
    document.addPage();
  }

  get isAtTop(): boolean {
    return this.y <= page.top;
  }

  get room(): number {
    return page.bottom - this.y;
  }

  nextPage(): void {
    this.document.addPage();
    this.y = page.top;
  }

  /** Leaves a gap, but not at the head of a page. */
  space(height: number): void {
    if (!this.isAtTop) this.y += height;
  }

  /** Draws what is no part of the reading order. */
  artifact(draw: () => void): void {
    this.document.markContent("Artifact", { type: "Layout" });
    this.document.save();
    draw();
    this.document.restore();
    this.document.endMarkedContent();
  }

  /** Places lines; where they do not fit, the rest goes on after a page break at a place that may be broken. */
  lines(lines: readonly Line[], backdrop?: Backdrop): void {
    let rest = lines;
    while (rest.length > 0) {
      const count = this.#fitting(rest);
      if (count === 0) {
        this.nextPage();
        continue;
      }
      this.#place(rest.slice(0, count), backdrop);
      rest = rest.slice(count);
      if (rest.length > 0) this.nextPage();
    }
  }

  #fitting(lines: readonly Line[]): number {
    let bottom = this.y;
    let fitting = 0;
    for (const [index, line] of lines.entries()) {
      bottom += line.height + (index === 0 ? 0 : line.before);
      if (bottom > page.bottom + 0.01) break;
      fitting = index + 1;
    }
    if (fitting === lines.length) return fitting;
    let count = fitting;
    while (count > 0 && lines[count]?.holdsToPrevious === true) count--;
    // On an empty page something must be placed, however it may be cut.
    return count > 0 || !this.isAtTop ? count : Math.max(1, fitting);
  }

  #place(lines: readonly Line[], backdrop: Backdrop | undefined): void {
    const tops: number[] = [];
    let y = this.y;
    for (const [index, line] of lines.entries()) {
      if (index > 0) y += line.before;
      tops.push(y);
      y += line.height;
    }
    if (backdrop !== undefined) this.artifact(() => backdrop(this.y, y));
    const pieces = lines.flatMap((line, index) => line.pieces.map((piece) => ({ ...piece, top: tops[index] ?? y })));
    // Neighbouring pieces of one element are one stretch of marked content.
    for (let from = 0; from < pieces.length; ) {
      const element = pieces[from]?.element;
      let to = from;
      while (pieces[to]?.element === element && to < pieces.length) to++;
      const stretch = pieces.slice(from, to);
      element?.add(() => {
        for (const piece of stretch) piece.draw(piece.top);
      });
      from = to;
    }
    this.y = y;
  }
}
