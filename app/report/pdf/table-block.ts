import type { ReportTable } from "../../../core/index.ts";
import { printTheme } from "../../chart/index.ts";
import { breakLines } from "../line-break.ts";
import { textWidth } from "../text-run.ts";
import type { Block } from "./block.ts";
import type { Element, Flow } from "./flow.ts";
import { contentHeight, contentWidth, leading, page, size } from "./page-measures.ts";
import { type ColumnPlan, columnGap, planColumns } from "./table-columns.ts";
import { lineHeightOf, textLines } from "./text-lines.ts";
import { type InkedStyle, writeText } from "./write-text.ts";

const sizes = [size.table, 9.75, 9, 8.25, 7.5, 6.75];
/** Longer tables, and those of the annex, are lists to look things up in, and are set closer. */
const longFrom = 13;
const longSizes = [8.75, ...sizes.slice(3)];
const cellPadding = { short: 0.5, long: 0.16 };
const captionStyle: InkedStyle = { face: "text-bold", size: size.small, colour: printTheme.ink };
/** Of the note below a table that is set close, in points. */
const noteSize = 8.5;
const noteGap = 5;
const headShrink = 0.93;

interface RowLayout {
  /** Lines of each cell. */
  readonly cells: readonly (readonly string[])[];
  readonly lineCount: number;
}

function isClose(table: ReportTable): boolean {
  return table.isReference === true || table.rows.length >= longFrom;
}

/** A table that goes on over pages: its heading row is repeated, rows hold together unless one is longer than a page. */
export function tableBlock(flow: Flow, parent: Element, table: ReportTable): Block {
  return new TableBlock(flow, parent, table);
}

class TableBlock implements Block {
  readonly before: number;
  readonly #flow: Flow;
  readonly #element: Element;
  readonly #caption: Element | null;
  readonly #note: Element | null;
  readonly #table: ReportTable;
  readonly #columns: ColumnPlan;
  readonly #lefts: readonly number[];
  readonly #cell: InkedStyle;
  readonly #head: InkedStyle;
  readonly #lineHeight: number;
  readonly #headRow: RowLayout;
  readonly #rows: readonly RowLayout[];

  constructor(flow: Flow, parent: Element, table: ReportTable) {
    this.#flow = flow;
    this.#table = table;
    const isHidden = table.isCaptionHidden === true;
    this.before = isHidden || isClose(table) ? 11 : 16;
    this.#element = flow.document.struct("Table", isHidden ? { title: table.caption } : {});
    this.#caption = table.caption === "" || isHidden ? null : flow.document.struct("Caption");
    this.#note = table.note === null || table.note === "" ? null : flow.document.struct("P");
    parent.add(this.#element);
    if (this.#caption !== null) this.#element.add(this.#caption);
    if (this.#note !== null) parent.add(this.#note);
    this.#columns = planColumns(table, contentWidth, isClose(table) ? longSizes : sizes, headStyle);
    this.#cell = { face: "text", size: this.#columns.size, colour: printTheme.ink };
    this.#head = headStyle(this.#columns.size);
    this.#lineHeight = this.#cell.size * (isClose(table) ? leading.reference : leading.text);
    const lefts: number[] = [];
    for (const [index, width] of this.#columns.widths.entries()) {
      const last = lefts.at(-1);
      lefts.push(
        index === 0 || last === undefined ? page.left : last + (this.#columns.widths[index - 1] ?? width) + columnGap,
      );
    }
    this.#lefts = lefts;
    this.#headRow = this.#layOut(
      table.columns.map((column) => column.label),
      this.#head,
    );
    this.#rows = table.rows.map((row) => this.#layOut(row, this.#cell));
  }

  get leading(): number {
    const lines = this.#caption === null ? 0 : breakLines(this.#table.caption, captionStyle, contentWidth).length;
    const caption = Math.min(lines * lineHeightOf(captionStyle) + 2, contentHeight / 4);
    const head = Math.min(this.#height(this.#headRow), contentHeight / 4);
    // A caption and a heading row never stand alone at the foot of a page: two rows come with them.
    const rows = this.#rows.slice(0, 2).reduce((height, row) => height + Math.min(this.#height(row), 80), 0);
    return caption + head + Math.max(rows, head);
  }

  place(): void {
    const place = { left: page.left, width: contentWidth, before: 0 };
    if (this.leading > this.#flow.room) this.#flow.nextPage();
    if (this.#caption !== null) {
      this.#flow.lines(textLines(this.#flow, this.#caption, this.#table.caption, captionStyle, place));
      this.#caption.end();
      this.#flow.y += 2;
    }
    if (this.#repeatsHead && this.#height(this.#headRow) * 2 > this.#flow.room) this.#flow.nextPage();
    this.#placeHead(this.#element);
    for (const [index, row] of this.#rows.entries()) this.#placeRow(this.#element, row, this.#belowRow(index));
    this.#element.end();
    if (this.#note !== null && this.#table.note !== null) {
      this.#flow.y += noteGap;
      this.#flow.lines(textLines(this.#flow, this.#note, this.#table.note, this.#noteStyle, place));
      this.#note.end();
    }
  }

  /** What goes with a row to the next page: the last row never goes alone, nor a note without rows of its table. */
  #belowRow(index: number): number {
    const last = this.#rows.length - 1;
    // The first two rows stay below the heading row in any case.
    if (index < Math.max(2, last - 1)) return 0;
    const { note } = this.#table;
    const lines = note === null ? 0 : breakLines(note, this.#noteStyle, contentWidth).length;
    const below = lines === 0 ? 0 : Math.min(noteGap + lines * lineHeightOf(this.#noteStyle), contentHeight / 4);
    const row = this.#rows[last];
    const all = index === last || row === undefined ? below : below + this.#height(row);
    return all > contentHeight / 6 ? 0 : all;
  }

  get #noteStyle(): InkedStyle {
    return { face: "text", size: isClose(this.#table) ? noteSize : size.small, colour: printTheme.inkSoft };
  }

  #placeHead(table: Element): void {
    const row = this.#addRow(
      table,
      this.#headRow.cells.map(() => "Column"),
    );
    this.#placeCells(this.#headRow, this.#head, row.cells, printTheme.ruleStrong);
    row.element.end();
  }

  /** `withIt`: height of what must stand on the same page below it. */
  #placeRow(table: Element, layout: RowLayout, withIt: number): void {
    const row = this.#addRow(
      table,
      layout.cells.map((_, index) => (index === 0 ? "Row" : null)),
    );
    const height = this.#height(layout) + withIt;
    if (height > this.#flow.room && height <= this.#roomOnNextPage) this.#nextPage();
    this.#placeCells(layout, this.#cell, row.cells, printTheme.rule);
    row.element.end();
  }

  /** A row of the structure tree; each cell is a heading of a scope, or null for a plain one. */
  #addRow(table: Element, scopes: readonly ("Column" | "Row" | null)[]): { element: Element; cells: Element[] } {
    const { document } = this.#flow;
    const element = document.struct("TR");
    table.add(element);
    // The writer knows the scope of a heading cell; its types do not.
    const cells = scopes.map((scope) =>
      scope === null
        ? document.struct("TD")
        : document.struct("TH", { scope } as PDFKit.Mixins.StructureElementOptions),
    );
    for (const cell of cells) element.add(cell);
    return { element, cells };
  }

  /** The lines of a row, over as many pages as they take. */
  #placeCells(layout: RowLayout, style: InkedStyle, cells: readonly Element[], rule: string): void {
    for (let from = 0; from < layout.lineCount; ) {
      if (this.#linesWithRoom < Math.min(2, layout.lineCount - from) && !this.#isFreshPage) this.#nextPage();
      const to = Math.min(layout.lineCount, from + Math.max(1, this.#linesWithRoom));
      const top = this.#flow.y;
      this.#writeCells(layout, style, from, to, top, (index, draw) => cells[index]?.add(draw));
      this.#finish(top + 2 * this.#padding + (to - from) * this.#lineHeight, rule);
      from = to;
    }
  }

  /** A further page, the heading row once more at its head: seen, but read only once. One that is very high is not repeated. */
  #nextPage(): void {
    this.#flow.nextPage();
    if (this.#repeatsHead) {
      const top = this.#flow.y;
      this.#flow.artifact(() => {
        this.#writeCells(this.#headRow, this.#head, 0, this.#headRow.lineCount, top, (_, draw) => draw());
      });
      this.#finish(top + this.#height(this.#headRow), printTheme.ruleStrong);
    }
    this.#freshAt = this.#flow.y;
  }

  #freshAt = -1;

  /** Nothing of the table stands on this page but the heading row. */
  get #isFreshPage(): boolean {
    return this.#flow.isAtTop || this.#flow.y === this.#freshAt;
  }

  get #repeatsHead(): boolean {
    return this.#height(this.#headRow) < contentHeight / 4;
  }

  get #roomOnNextPage(): number {
    return contentHeight - (this.#repeatsHead ? this.#height(this.#headRow) : 0);
  }

  get #linesWithRoom(): number {
    return Math.floor((this.#flow.room - 2 * this.#padding + 0.01) / this.#lineHeight);
  }

  /** Lines `from` to `to` of each cell that has any; `within` puts a cell's text where it belongs. */
  #writeCells(
    layout: RowLayout,
    style: InkedStyle,
    from: number,
    to: number,
    top: number,
    within: (index: number, draw: () => void) => void,
  ): void {
    for (const [index, all] of layout.cells.entries()) {
      const lines = all.slice(from, to);
      if (lines.join("") === "") continue;
      within(index, () => {
        for (const [at, line] of lines.entries()) {
          const baseline = top + this.#padding + this.#lineHeight * (at + 0.5) + style.size * 0.33;
          writeText(this.#flow.document, line, style, this.#leftOf(index, line, style), baseline);
        }
      });
    }
  }

  #leftOf(index: number, line: string, style: InkedStyle): number {
    const left = this.#lefts[index] ?? page.left;
    if (this.#table.columns[index]?.align !== "number") return left;
    return left + (this.#columns.widths[index] ?? 0) - textWidth(line.trimEnd(), style.face, style.size);
  }

  #finish(bottom: number, colour: string): void {
    this.#flow.y = bottom;
    const { document } = this.#flow;
    this.#flow.artifact(() => {
      document.lineWidth(0.6).strokeColor(colour).moveTo(page.left, bottom).lineTo(page.right, bottom).stroke();
    });
  }

  #layOut(texts: readonly string[], style: InkedStyle): RowLayout {
    const cells = this.#columns.widths.map((width, index) => breakLines(texts[index] ?? "", style, width));
    return { cells, lineCount: cells.reduce((most, lines) => Math.max(most, lines.length), 1) };
  }

  #height(row: RowLayout): number {
    return row.lineCount * this.#lineHeight + 2 * this.#padding;
  }

  get #padding(): number {
    return this.#cell.size * (isClose(this.#table) ? cellPadding.long : cellPadding.short);
  }
}

function headStyle(cellSize: number): InkedStyle {
  return { face: "text-bold", size: cellSize * headShrink, colour: printTheme.inkSoft };
}
