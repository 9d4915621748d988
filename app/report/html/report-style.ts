import { type ChartTheme, darkTheme, lightTheme, printTheme } from "../../chart/index.ts";

/** Name of the style variable of each colour of a theme. */
const colourNames = {
  ink: "--ink",
  inkSoft: "--ink-soft",
  rule: "--rule",
  ruleStrong: "--rule-strong",
  sheet: "--sheet",
  sure: "--sure",
  attention: "--attention",
  attentionSoft: "--attention-soft",
} as const satisfies Partial<Record<keyof ChartTheme, string>>;

/** A theme whose colours are the style's variables, so that charts in the file change with it; the light ones where there is no style. */
export const styledTheme: ChartTheme = {
  ...lightTheme,
  ...Object.fromEntries(
    Object.entries(colourNames).map(([key, name]) => [
      key,
      `var(${name},${lightTheme[key as keyof typeof colourNames]})`,
    ]),
  ),
  variants: lightTheme.variants.map(
    (colour, index) => `var(--variant-${index + 1},${colour})`,
  ) as unknown as ChartTheme["variants"],
};

function variables(theme: ChartTheme): string {
  const named = Object.entries(colourNames).map(([key, name]) => `${name}:${theme[key as keyof typeof colourNames]}`);
  return [...named, ...theme.variants.map((colour, index) => `--variant-${index + 1}:${colour}`)].join(";");
}

/** The style of a report file; `fonts`: its font faces. */
export function reportStyle(fonts: string): string {
  return `${fonts}
:root{color-scheme:light dark;${variables(lightTheme)}}
@media screen and (prefers-color-scheme:dark){:root{${variables(darkTheme)}}}
@media print{:root{color-scheme:light;${variables(printTheme)}}}
*{box-sizing:border-box}
body{margin:0;background:var(--sheet);color:var(--ink);font:400 1rem/1.5 ${lightTheme.textFamily};font-variant-numeric:tabular-nums lining-nums;overflow-wrap:anywhere}
.page{max-width:56rem;margin:0 auto;padding:2.5rem clamp(1rem,5vw,3.5rem)}
.ends{display:flex;flex-wrap:wrap;justify-content:space-between;gap:.25rem 2rem;margin:0;font-size:.8125rem;color:var(--ink-soft)}
header .ends{margin-bottom:2.5rem}
footer{margin-top:3rem;padding-top:.75rem;border-top:1px solid var(--rule)}
h1,h2{font-family:${lightTheme.voiceFamily};font-weight:600;line-height:1.2;text-wrap:balance}
h1{font-size:clamp(1.6rem,1.1rem + 2.4vw,2.3rem);margin:.5rem 0 1rem}
h1.long{font-size:1.25rem}
h2{font-size:1.25rem;margin:2.5rem 0 .4rem}
h3{font-size:1.02rem;font-weight:600;margin:1.75rem 0 .3rem}
p{margin:0 0 .7rem}
.question{margin:0;color:var(--ink-soft)}
.lead{font-size:1.09rem}
.soft,figcaption,.note{color:var(--ink-soft);font-size:.875rem}
figure{margin:2rem 0}
figcaption{margin-top:.5rem}
svg{display:block;width:100%;height:auto;font-variant-numeric:tabular-nums lining-nums}
svg.strip{width:15rem}
svg.narrow{display:none}
@media screen and (max-width:44rem){tbody th{min-width:6.5rem}svg.narrow{display:block;max-width:27rem}svg.wide{display:none}}
.table{margin:2rem 0 1rem;overflow-x:auto}
table{border-collapse:collapse;width:100%;line-height:1.4}
caption{text-align:left;font-weight:600;font-size:.875rem;padding-bottom:.4rem}
caption.heard{position:absolute;width:1px;height:1px;padding:0;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
th,td{text-align:left;font-weight:400;vertical-align:top;padding:.5rem 1.1rem .5rem 0;border-bottom:1px solid var(--rule);min-width:3rem}
th:last-child,td:last-child{padding-right:0}
thead th{font-weight:600;font-size:.875rem;color:var(--ink-soft);border-color:var(--rule-strong);vertical-align:bottom;overflow-wrap:normal}
.number{text-align:right}
.whole{white-space:nowrap}
table.long{font-size:.875rem}
table.long th,table.long td{padding-top:.25rem;padding-bottom:.25rem}
aside{margin:1.75rem 0;padding:.7rem 1rem;border-left:1px solid var(--rule-strong)}
aside.attention{border-left:3px solid var(--attention);background:var(--attention-soft);border-radius:0 4px 4px 0}
aside p{margin:0 0 .3rem}
aside p:last-child{margin:0}
.title{font-weight:600}
ul{margin:0 0 .7rem;padding-left:1.1rem}
li{margin:.15rem 0}
li::marker{color:var(--ink-soft)}
@page{size:A4;margin:18mm 17mm}
@media print{body{background:none;font-size:10.5pt}.page{max-width:none;padding:0}.table{overflow:visible}table.long{font-size:8.25pt}table.long th,table.long td{padding:.15rem .6rem .15rem 0;min-width:0}
thead{display:table-header-group}tr,figure,aside{break-inside:avoid}h1,h2,h3,caption{break-after:avoid}p,li{orphans:2;widows:2}
.starts-page{break-before:page}aside.attention{print-color-adjust:exact}}
`;
}
