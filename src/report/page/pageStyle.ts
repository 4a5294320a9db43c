import { FIGURE_WIDTH } from "../chart/figure.js";
import { DARK_PALETTE, LIGHT_PALETTE, type Palette } from "../chart/palette.js";

/** The style of every page: phones first, wider screens, A4; light and, on screens alone, dark. */
export function pageStyle(): string {
  return [
    ...EVERYWHERE,
    ...colours(LIGHT_PALETTE),
    `@media (min-width:680px),print{${WIDE.join("")}}`,
    `@media screen and (max-width:679px){${NARROW}}`,
    `@media screen and (prefers-color-scheme:dark){${colours(DARK_PALETTE).join("")}}`,
    PAPER,
    `@media print{${PRINTED.join("")}}`,
  ].join("");
}

const EVERYWHERE = [
  "body{margin:0;font:15px/1.5 system-ui,sans-serif}",
  "main{max-width:760px;margin:0 auto;padding:20px 12px}",
  "h1{font-size:26px;margin:0 0 12px}h2{font-size:19px;margin:36px 0 8px}h3{font-size:16px;margin:24px 0 4px}",
  ".head{display:flex;flex-wrap:wrap;gap:2px 24px;margin:0 0 16px}.head div{display:flex;gap:6px}",
  ".head dd{margin:0;font-weight:600}.head .blank{min-width:9em;border-bottom:1px dotted}",
  "table{border-collapse:collapse;margin:12px 0;font-size:14px}",
  "caption{text-align:left;font-size:13px;padding:4px 0}",
  "th,td{text-align:left;vertical-align:top;padding:4px 10px 4px 0;font-weight:400}",
  "th[scope=col]{font-weight:600;vertical-align:bottom}",
  ".number{text-align:right;font-variant-numeric:tabular-nums;white-space:nowrap}.number+:not(.number){padding-left:6px}",
  "th,td,li,p,h3,dd{overflow-wrap:break-word}.scroll{overflow-x:auto}",
  ".pours{width:100%}.pours th[scope=row] span{display:block}.pours th.number{white-space:normal}",
  ".pours th,.pours td{padding-right:5px}.pours .amount{font-size:1.5em;line-height:1.15;font-weight:600}",
  ".pours .tick{display:block;width:1.1em;height:1.1em;margin:2px 0 0 3px;border:1.5px solid;border-radius:2px}",
  ".pours td,.pours tbody th{padding-top:7px;padding-bottom:7px}.pours .written{min-width:46px;border-bottom:1px solid}",
  "figure{margin:12px 0}figure svg{max-width:100%;height:auto;display:block}",
  "figcaption,.note{font-size:13px}.headline,.lead{font-weight:600}",
  ".look,.figures{display:grid;gap:0 20px;align-items:start}.look svg{width:100%;max-width:300px}.figures figure>svg{width:100%}",
  ".look{grid-template-columns:repeat(auto-fit,minmax(min(100%,220px),1fr))}",
  ".figures{grid-template-columns:repeat(auto-fit,minmax(min(100%,320px),1fr))}.halves{font-size:13px}",
  ".warnings{padding:1px 16px 8px;margin:20px 0;border-left:4px solid}.warnings h2{margin-top:12px}",
];

const WIDE = [
  "main{padding:24px 16px}table{min-width:50%}.figures table{min-width:0}.pours th,.pours td{padding-right:20px}.pours .written{min-width:110px}",
  ".halves{display:grid;grid-template-columns:repeat(auto-fit,minmax(0,1fr));gap:0 24px}",
];

/** Figures as wide as the page are scrolled where they would be too small to read. */
const NARROW = `figure{overflow-x:auto}figure svg[width='${FIGURE_WIDTH}']{max-width:none;min-width:620px}`;

/** The head of a sheet stands in the upper margin. */
const PAPER =
  "@page{size:A4;margin:12mm 12mm 7mm;@top-left{font:8pt system-ui,sans-serif}@top-right{font:8pt system-ui,sans-serif}}";

const PRINTED = [
  "main{max-width:none;padding:0}body{font-size:8.6pt;line-height:1.2}table{font-size:8.1pt;margin:3px 0}th,td{padding:0 10px 0 0}",
  "h1{font-size:14pt;margin:0}h2{font-size:11pt;margin:5px 0 1px}h3{font-size:10.5pt;margin:10px 0 2px}p{margin:2px 0}",
  "h1:has(+.head){float:left;margin-right:20px}.head{margin:0 0 4px;padding-top:5px}.headline{clear:left}",
  ".pours{font-size:9pt}.pours th[scope=row] span{display:inline;margin-right:12px}.pours td,.pours tbody th{padding-top:2px;padding-bottom:2px}.look svg{max-width:234px}",
  "figure{margin:2px 0}caption,.note,.caution{font-size:8pt}figcaption{font-size:7.2pt}caption{padding:2px 0}ul,ol{margin:2px 0;padding-left:20px}",
  ".warnings{margin:6px 0;padding-bottom:1px;font-size:8pt}.warnings h2{margin-top:1px}",
  ".halves{font-size:7.5pt;line-height:1.25}.halves ul{padding-left:12px}",
  "figure,tr,.warnings{break-inside:avoid}h2,h3,caption{break-after:avoid}thead{display:table-header-group}",
];

function colours({ paper, ink, quiet, grid, series }: Palette): readonly string[] {
  return [
    `body{background:${paper};color:${ink}}`,
    `caption,.note{color:${quiet}}`,
    `tr{border-bottom:1px solid ${grid}}`,
    `.warnings{border-color:${series[1]}}`,
  ];
}
