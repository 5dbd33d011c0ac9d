/** The one style of the sheet's page: a phone first, then a screen, then paper; light and dark, contrast of 7 to 1. */
import { CHART_CSS } from "../chart/svg.ts";
import { cssText } from "./text.ts";

const LIGHT =
  "--paper:#fff;--ink:#161616;--muted:#484848;--faint:#c4c4c4;--card:#f4f4f1;--bad:#8a1414;--warn:#5c3800;--good:#174a1e;--link:#0a4180;--hit:#8a1414;--onhit:#fff";

const DARK =
  "--paper:#14161a;--ink:#ececea;--muted:#bdbfc2;--faint:#4a4e55;--card:#1f2228;--bad:#ffaba1;--warn:#f0c06a;--good:#8fd39a;--link:#9ecaff;--hit:#ffaba1;--onhit:#14161a;" +
  "--chart-hit:#ff6a5c;--chart-drive:#1f3f63;--chart-ride:#22303f;--chart-ferry:#14393d;--chart-duty:#3a352a;--chart-wait:#24221d;--chart-meal:#14161a;--chart-charge:#204327;" +
  "--chart-use:#4d3815;--chart-window:#3a2e47;--chart-day:#6b6233;--chart-twilight:#3a4258;--chart-night:#0c0e12;--chart-curve:#8fc1ff";

const SHARED = `*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:16px/1.35 system-ui,"Segoe UI",Roboto,"Helvetica Neue",Arial,sans-serif;overflow-wrap:anywhere}
header,main{max-width:72rem;margin:0 auto;padding:.5rem .75rem}
h1{font-size:1.1rem;line-height:1.2;margin:0 0 .3rem}
h2{font-size:1.1rem;margin:1.2rem 0 .4rem;border-bottom:2px solid var(--ink)}
h3{font-size:1rem;margin:.7rem 0 .2rem}
h2,h3{break-after:avoid}
p,ul,ol{margin:.25rem 0}
ul{padding-left:1.2rem}
ul.tick{list-style:none;padding-left:0}
ul.tick li{padding-left:1.5rem;position:relative}
ul.tick li::before{content:"";position:absolute;left:.1rem;top:.2em;width:.8em;height:.8em;border:1.5px solid var(--ink)}
a{color:var(--link)}
dl,dd{margin:0}
.strong,b{font-weight:700}
.muted{color:var(--muted)}
.bad{color:var(--bad);font-weight:700}
.warn{color:var(--warn)}
.good{color:var(--good)}
p.small{color:var(--muted)}
.changed{border-left:4px solid var(--warn);padding-left:.3rem}
del{color:var(--muted)}
ins{text-decoration:none;font-weight:700}
table{border-collapse:collapse;width:100%;font-variant-numeric:tabular-nums}
th,td{text-align:left;vertical-align:top;padding:.25rem .5rem .25rem 0}
.right{text-align:right}
.answer{margin:0 0 .3rem}
.figures{display:grid;grid-template-columns:1fr 1fr;gap:.3rem .75rem}
.figures dt{color:var(--muted);font-size:.8rem}
.figures dd{line-height:1.15}
.figures b{display:block;font-size:1.75rem;font-variant-numeric:tabular-nums}
.figures .word{font-size:1rem;font-weight:400;color:var(--muted)}
.figures span{font-size:.8rem;color:var(--muted)}
.box{border:2px solid var(--ink);border-radius:.3rem;padding:.1rem .5rem;margin:.4rem 0}
.notes{font-size:.85rem;color:var(--muted)}
.qr{display:none}`;

/** Rows as cards: the first cell is the card's head, the others stand under their column's name. */
const PHONE = `@media screen and (max-width:699px){
.wide-only,table~.maps,#places h3,#timeline{display:none}
.maps{list-style:none;padding:0}
.maps a{display:flex;align-items:center;min-height:44px}
.box p{margin:0;display:flex;flex-wrap:wrap;gap:0 .3rem;align-items:center}
.box a,.phone a{display:inline-flex;align-items:center;min-height:44px}
nav{position:sticky;top:0;z-index:1;display:flex;overflow-x:auto;background:var(--card);border-block:1px solid var(--faint)}
nav a{flex:none;display:inline-flex;align-items:center;min-height:44px;padding:0 .6rem;white-space:nowrap}
section{scroll-margin-top:3rem}
.figures b{font-size:clamp(1.25rem,6vw,1.75rem)}
#people ul,#agenda ol{list-style:none;padding:0}
#people h2{margin-top:.3rem}
#people li{display:grid;grid-template-columns:1fr auto;gap:0 .5rem;border-bottom:1px solid var(--faint);padding:.1rem 0;font-size:.875rem;line-height:1.2}
#people .who{align-self:end}
#people .where{grid-column:1;font-size:.8rem;color:var(--muted)}
#people .phone{grid-column:2;grid-row:1/3;align-self:center}
#people b{font-size:1.2rem;font-variant-numeric:tabular-nums}
#agenda li{display:grid;grid-template-columns:4.2rem 1fr;gap:0 .4rem;padding:.1rem 0;font-size:.9375rem;line-height:1.2;font-variant-numeric:tabular-nums}
#agenda li.place{display:block;border-top:2px solid var(--ink);margin-top:.4rem;font-weight:700}
#agenda li.place:first-child{border-top:0;margin-top:0}
#agenda time{font-weight:700}
#agenda .note{grid-column:2;font-weight:400;font-size:.85rem;color:var(--muted)}
#agenda .hit .what{background:var(--hit);color:var(--onhit);border-radius:.2rem;padding:0 .4rem;font-weight:700}
#agenda .meal .what{font-style:italic}
thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
table,tbody{display:block}
tr{display:grid;grid-template-columns:1fr 1fr;gap:.1rem .75rem;background:var(--card);border-radius:.4rem;padding:.3rem .6rem;margin:.3rem 0}
th,td{display:block;padding:.1rem 0;min-width:0}
tbody th{grid-column:1/-1}
.right{text-align:left}
td::before{content:attr(data-label) " ";font-size:.8rem;color:var(--muted)}
td.none{display:none}
#places td{grid-column:1/-1}
main section:not(.phone-only){font-size:.875rem;line-height:1.2}
main h2{margin:.6rem 0 .2rem;font-size:1rem}
main h3{margin:.35rem 0 .1rem;font-size:.9rem}
#batteries tr{grid-template-columns:4rem 1fr 1fr;background:none;border-radius:0;margin:0;padding:.05rem 0;border-bottom:1px solid var(--faint)}
#batteries tbody th{grid-column:auto}
#batteries td::before{content:none}
#batteries p{margin:.1rem 0 0}
#gear ul{columns:2}
#places tr{padding:.1rem .6rem;margin:.2rem 0}
#places td{padding:0}
.small{font-size:.75rem}
}`;

const SCREEN = `@media print,screen and (min-width:700px){
nav,.phone-only{display:none}
h1{font-size:1.35rem}
.figures{grid-template-columns:repeat(4,1fr)}
.box{display:flex;flex-wrap:wrap;gap:.1rem 1.5rem;align-items:baseline}
.box p{margin:.1rem 0}
thead th{font-size:.8rem;font-weight:400;color:var(--muted);border-bottom:1px solid var(--faint)}
tbody th,tbody td{border-bottom:1px solid var(--faint)}
td.right,th.right{padding-right:1rem}
thead th{overflow-wrap:normal}
tbody th,tbody td{vertical-align:baseline}
.whole{white-space:nowrap}
.flow{columns:2;column-gap:2rem;margin-top:1.2rem}
.flow section{break-inside:avoid}
.flow table{table-layout:fixed;break-inside:avoid}
#batteries p{break-after:avoid}
.flow #batteries,.flow #cautions,.flow #open{break-inside:auto}
.flow section:first-child h2{margin-top:0}
.maps{display:grid;grid-template-columns:repeat(auto-fill,minmax(9rem,1fr));gap:.5rem 1rem;list-style:none;padding:0;font-size:.85em}
.maps li{break-inside:avoid}
.qr{display:block;width:5rem;height:5rem;margin:0 0 .2rem -.6rem}
}
@media screen and (min-width:700px){#phones th,#phones td,#lines th,#lines td{vertical-align:middle}
td a,.box a,#phones a{display:inline-block;padding-block:.3rem}}
@media screen and (prefers-color-scheme:dark){.qr{margin-left:0}}`;

/** Whatever paper the printer holds: no size is asked for, only margins, and a foot that runs. */
const paper = (title: string): string => `@media print{
:root{${LIGHT};color-scheme:light}
@page{margin:9mm 9mm 11mm;@bottom-left{content:"${cssText(title)}";font:9pt system-ui,sans-serif}@bottom-right{content:"page " counter(page) " of " counter(pages);font:9pt system-ui,sans-serif}}
body{font-size:9pt;line-height:1.2}
.chart{font-size:9pt}
.notes p{display:inline}
.figures{grid-template-columns:repeat(4,auto);justify-content:space-between}
#moves [data-key=plannedMinutes]{display:none}
#moves tbody th,#moves td{min-width:0}
#moves tbody th{white-space:nowrap}
header,main{max-width:none;padding:0}
h1{font-size:12pt;margin:0 0 1mm}
h2{font-size:10pt;margin:1.6mm 0 .5mm;border-bottom-width:1pt}
h3{font-size:9pt;margin:.8mm 0 .3mm}
p,ul{margin:.4mm 0}
.figures b{font-size:20pt;line-height:.95}
.figures dt,.figures span,.figures .word,.notes{font-size:9pt}
.box{border-width:1pt;margin:1mm 0}
th,td{padding:.2mm 2mm .2mm 0}
thead{display:table-header-group}
thead th{font-size:9pt}
#calls tbody [data-key=call]{font-size:11pt;line-height:1}
tr,li{break-inside:avoid}
a{color:inherit;text-decoration:none}
.page{break-after:page}
#phones thead{display:none}
#phones tr{display:inline-block;margin-right:4mm}
#phones th,#phones td{border:0;padding-right:1mm}
.page~.flow,.flows~.flow{columns:3}
.flow{column-gap:5mm;margin-top:1.5mm}
#gear ul{columns:2}
ul{padding-left:5mm}
ul.tick li{padding-left:4.6mm}
ul.tick li::before{top:.1em}
.maps{grid-template-columns:repeat(auto-fill,minmax(34mm,1fr));gap:1mm 4mm;font-size:9pt}
.qr{width:14mm;height:14mm;margin:0 0 .2mm -1.7mm}
*{-webkit-print-color-adjust:exact;print-color-adjust:exact}
}`;

/** The style of a page whose foot on paper runs with its title. */
export const pageCss = (title: string): string =>
  [
    `:root{color-scheme:light dark;${LIGHT}}`,
    `@media (prefers-color-scheme:dark){:root{${DARK}}}`,
    SHARED,
    CHART_CSS,
    PHONE,
    SCREEN,
    paper(title),
  ].join("\n");
