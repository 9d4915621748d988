import type { Locale, ReportBlock, ReportTable } from "../../../core/index.ts";
import { escapeMarkup } from "../../chart/index.ts";
import { chartFigure } from "./chart-figure.ts";

/** Tables longer than this are lists to look things up in, and are set closer. */
const longFrom = 13;

/** One block as HTML; its place among the blocks makes its ids. */
export function htmlBlock(block: ReportBlock, index: number, locale: Locale): string {
  switch (block.kind) {
    case "heading": {
      const starts = block.startsPage === true ? ' class="starts-page"' : "";
      return `<h${block.level}${starts}>${escapeMarkup(block.text)}</h${block.level}>`;
    }
    case "paragraph":
      return `<p${block.tone === "soft" ? ' class="soft"' : ""}>${escapeMarkup(block.text)}</p>`;
    case "aside": {
      const texts = block.texts.map((text) => `<p>${escapeMarkup(text)}</p>`).join("");
      const id = `aside-${index}`;
      return `<aside class="${block.tone}" aria-labelledby="${id}"><p class="title" id="${id}">${escapeMarkup(block.title)}</p>${texts}</aside>`;
    }
    case "chart":
      return chartFigure(block.chart, block.caption, `chart-${index}`, locale);
    case "list":
      return `<ul>${block.items.map((item) => `<li>${escapeMarkup(item)}</li>`).join("")}</ul>`;
    case "table":
      return htmlTable(block.table, `table-${index}`);
  }
}

/** A wide table scrolls within its own box, which the keyboard reaches. */
function htmlTable(table: ReportTable, id: string): string {
  const heard = table.isCaptionHidden === true ? ' class="heard"' : "";
  const caption = table.caption === "" ? "" : `<caption id="${id}"${heard}>${escapeMarkup(table.caption)}</caption>`;
  const align = (index: number) => (table.columns[index]?.align === "number" ? ' class="number"' : "");
  const head = table.columns.map(
    (column, index) => `<th scope="col"${align(index)}>${escapeMarkup(column.label)}</th>`,
  );
  const rows = table.rows.map((row) => {
    const cells = table.columns.map((_, index) => {
      const text = escapeMarkup(row[index] ?? "");
      const classes = cellClass(table, index, row[index] ?? "");
      return index === 0 ? `<th scope="row"${classes}>${text}</th>` : `<td${classes}>${text}</td>`;
    });
    return `<tr>${cells.join("")}</tr>`;
  });
  const label = caption === "" ? "" : ` role="region" aria-labelledby="${id}" tabindex="0"`;
  const long = table.rows.length < longFrom ? "" : ' class="long"';
  const note = table.note === null || table.note === "" ? "" : `\n<p class="note">${escapeMarkup(table.note)}</p>`;
  return `<div class="table"${label}><table${long}>${caption}<thead><tr>${head.join("")}</tr></thead><tbody>${rows.join("\n")}</tbody></table></div>${note}`;
}

/** "27.1 ± 2.1" and "run 12" stay on one line; anything longer may break, lest it widen the page. */
function cellClass(table: ReportTable, index: number, text: string): string {
  const isNumber = table.columns[index]?.align === "number";
  const isWhole = text.length <= (isNumber ? 24 : 13);
  const names = [...(isNumber ? ["number"] : []), ...(isWhole && text !== "" ? ["whole"] : [])];
  return names.length === 0 ? "" : ` class="${names.join(" ")}"`;
}
