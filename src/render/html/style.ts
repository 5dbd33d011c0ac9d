/** The one style of the sheet's page: a phone first, then a screen, then paper; light and dark. */
import { CHART_CSS } from "../chart/svg.ts";

const LIGHT =
  "--paper:#fff;--ink:#161616;--muted:#555;--faint:#c4c4c4;--card:#f4f4f1;--bad:#9b1c1c;--warn:#6d4300;--good:#1d5a25;--link:#0b4f9c";

const DARK =
  "--paper:#14161a;--ink:#ececea;--muted:#b3b5b8;--faint:#4a4e55;--card:#1f2228;--bad:#ff9a8f;--warn:#f0c06a;--good:#8fd39a;--link:#8fc1ff;" +
  "--chart-hit:#ff6a5c;--chart-drive:#1f3f63;--chart-ride:#22303f;--chart-duty:#3a352a;--chart-wait:#24221d;--chart-meal:#14161a;--chart-charge:#204327;" +
  "--chart-use:#4d3815;--chart-window:#3a2e47;--chart-day:#6b6233;--chart-twilight:#3a4258;--chart-night:#0c0e12;--chart-curve:#8fc1ff";

const SHARED = `*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:16px/1.4 system-ui,"Segoe UI",Roboto,"Helvetica Neue",Arial,sans-serif;overflow-wrap:anywhere}
main{max-width:72rem;margin:0 auto;padding:.75rem}
h1{font-size:1.35rem;line-height:1.2;margin:.2rem 0 .5rem}
h2{font-size:1.1rem;margin:1.4rem 0 .4rem;border-bottom:2px solid var(--ink)}
h3{font-size:1rem;margin:.8rem 0 .3rem}
h2,h3{break-after:avoid}
p,ul{margin:.3rem 0}
ul{padding-left:1.2rem}
ul.tick{list-style:none;padding-left:0}
ul.tick li{padding-left:1.5rem;position:relative}
ul.tick li::before{content:"";position:absolute;left:.1rem;top:.25em;width:.8em;height:.8em;border:1.5px solid var(--ink)}
a{color:var(--link)}
.story{color:var(--muted);margin:0}
.strong{font-weight:700}
.muted{color:var(--muted)}
.bad{color:var(--bad);font-weight:700}
.warn{color:var(--warn)}
.good{color:var(--good)}
table{border-collapse:collapse;width:100%;font-variant-numeric:tabular-nums}
th,td{text-align:left;vertical-align:top;padding:.25rem .5rem .25rem 0}
.right{text-align:right}
.qr{display:none}`;

/** Rows as cards: the first cell is the card's head, the others stand under their column's name. */
const PHONE = `@media screen and (max-width:899px){
thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
table,tbody{display:block}
tr{display:grid;grid-template-columns:1fr 1fr;gap:.1rem .75rem;background:var(--card);border-radius:.4rem;padding:.5rem .6rem;margin:.5rem 0}
th,td{display:block;padding:.1rem 0;min-width:0}
tbody th{grid-column:1/-1;font-size:1.05rem}
.right{text-align:left}
td::before{content:attr(data-label);display:block;font-size:.75rem;color:var(--muted)}
td.none{display:none}
#hits tr,#moves tr{grid-template-columns:1fr 1fr 1fr}
#hits tbody th,#moves tbody th{grid-column:auto;align-self:end;line-height:1.1;padding-bottom:.2rem}
#calls [data-key=call] .strong,#hits [data-key=start] .strong,#moves [data-key=leave] .strong{font-size:1.45rem;line-height:1.1}
#places td{grid-column:1/-1}
#places h3,.maps{display:none}
}`;

const SCREEN = `@media print,screen and (min-width:900px){
thead th{font-size:.8rem;font-weight:400;color:var(--muted);border-bottom:1px solid var(--faint)}
tbody th,tbody td{border-bottom:1px solid var(--faint)}
tbody td.right{padding-right:1rem}
.flow{columns:2;column-gap:2rem;margin-top:1.4rem}
.flow section{break-inside:avoid}
.flow table{table-layout:fixed}
.flow #cautions,.flow #open{break-inside:auto}
.flow section:first-child h2{margin-top:0}
.maps{display:grid;grid-template-columns:repeat(auto-fill,minmax(9rem,1fr));gap:.5rem 1rem;list-style:none;padding:0;font-size:.85em}
.maps li{break-inside:avoid}
.qr{display:block;width:5rem;height:5rem;margin:0 0 .2rem -.6rem}
}`;

/** One sheet of paper, whichever the printer holds: no size is asked for, only margins. */
const PAPER = `@media print{
:root{${LIGHT};color-scheme:light}
@page{margin:9mm}
body{font-size:8pt;line-height:1.2}
.chart{zoom:.8}
main{max-width:none;padding:0}
h1{font-size:13pt;margin:0 0 1mm}
h2{font-size:9.5pt;margin:2mm 0 .6mm;border-bottom-width:1pt;break-after:avoid}
h3{font-size:8.5pt;margin:1.2mm 0 .5mm;break-after:avoid}
p,ul{margin:.6mm 0}
th,td{padding:.35mm 2mm .35mm 0}
thead{display:table-header-group}
thead th{font-size:7pt}
tr,li{break-inside:avoid}
a{color:inherit;text-decoration:none}
.flow{column-gap:8mm;margin-top:2mm}
.maps{grid-template-columns:repeat(auto-fill,minmax(30mm,1fr));gap:1mm 4mm}
.qr{width:15mm;height:15mm;margin:0 0 .3mm -1.8mm}
*{-webkit-print-color-adjust:exact;print-color-adjust:exact}
}`;

export const PAGE_CSS = [
  `:root{color-scheme:light dark;${LIGHT}}`,
  `@media (prefers-color-scheme:dark){:root{${DARK}}}`,
  SHARED,
  CHART_CSS,
  PHONE,
  SCREEN,
  PAPER,
].join("\n");
