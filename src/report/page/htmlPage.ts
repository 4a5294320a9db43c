import { type Child, element } from "../chart/element.js";
import { DARK_PALETTE, LIGHT_PALETTE, type Palette } from "../chart/palette.js";

/** A whole page in the look of the figures: one file, no scripts, nothing fetched. Its markup is XML as well. */
export function htmlPage(title: string, children: readonly Child[]): string {
  const page = element(
    "html",
    { lang: "en" },
    element(
      "head",
      {},
      element("meta", { charset: "utf-8" }),
      element("meta", { name: "viewport", content: "width=device-width, initial-scale=1" }),
      element("meta", { name: "color-scheme", content: "light dark" }),
      element("title", {}, title),
      element("style", {}, pageStyle()),
    ),
    element("body", {}, element("main", {}, element("h1", {}, title), ...children)),
  );
  return `<!doctype html>\n${page.markup}\n`;
}

function pageStyle(): string {
  return [
    "body{margin:0;font:15px/1.5 system-ui,sans-serif}",
    "main{max-width:760px;margin:0 auto;padding:24px 16px}",
    "h1{font-size:26px;margin:0 0 12px}h2{font-size:19px;margin:36px 0 8px}h3{font-size:16px;margin:24px 0 4px}",
    "table{border-collapse:collapse;min-width:50%;margin:12px 0;font-size:14px}",
    "caption{text-align:left;font-size:13px;padding:4px 0}",
    "th,td{text-align:left;vertical-align:top;padding:4px 20px 4px 0;font-weight:400}",
    "th[scope=col]{font-weight:600;vertical-align:bottom}",
    ".number{text-align:right;font-variant-numeric:tabular-nums;white-space:nowrap}",
    "th,td,li,p,h3{overflow-wrap:break-word}",
    "figure{margin:12px 0}figure svg{max-width:100%;height:auto;display:block}",
    "figcaption,.note{font-size:13px}.headline{font-weight:600}.number+:not(.number){padding-left:6px}",
    "@media print,(min-width:680px){.columns{display:grid;grid-template-columns:minmax(0,1fr) 234px;gap:0 24px;align-items:start}}",
    "@media print,(min-width:680px){.halves{display:grid;grid-template-columns:repeat(auto-fit,minmax(0,1fr));gap:0 24px}}.halves{font-size:13px}",
    ".looks{display:flex;flex-wrap:wrap;gap:0 24px}.looks figure{margin:4px 0}",
    "@media screen and (max-width:680px){table{display:block;overflow-x:auto;max-width:100%}th,td{padding-right:10px}}",
    ".columns table{min-width:0;width:100%}.columns th,.columns td{padding-right:12px}",
    ".warnings{padding:1px 16px 8px;margin:20px 0;border-left:4px solid}.warnings h2{margin-top:12px}",
    ...colours(LIGHT_PALETTE),
    `@media screen and (prefers-color-scheme:dark){${colours(DARK_PALETTE).join("")}}`,
    "@page{size:A4;margin:8mm 12mm}@media print{main{max-width:none;padding:0}body{font-size:8.6pt;line-height:1.2}table{font-size:8.1pt;margin:3px 0}th,td{padding:0 10px 0 0}}",
    "@media print{h1{font-size:14pt;margin:0}h2{font-size:11pt;margin:6px 0 1px}h3{font-size:10.5pt;margin:10px 0 2px}p{margin:3px 0}figure{margin:2px 0}.warnings{margin:6px 0;padding-bottom:1px;font-size:8pt}.warnings h2{margin-top:1px}}",
    "@media print{caption,figcaption,.note,.caution{font-size:8pt}ul,ol{margin:2px 0;padding-left:20px}.columns{grid-template-columns:minmax(0,1fr) 180px}.columns th,.columns td{padding-right:8px}.halves{font-size:7.5pt;line-height:1.25}.halves ul{padding-left:12px}}",
    "@media print{figure,tr,.warnings{break-inside:avoid}h2,h3,caption{break-after:avoid}thead{display:table-header-group}}",
  ].join("");
}

function colours({ paper, ink, quiet, grid, series }: Palette): readonly string[] {
  return [
    `body{background:${paper};color:${ink}}`,
    `caption,.note{color:${quiet}}`,
    `tr{border-bottom:1px solid ${grid}}`,
    `.warnings{border-color:${series[1]}}`,
  ];
}
