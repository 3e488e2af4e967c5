/** Light colours; charts take them as variables too. Contrast of text to ground is at least 4.5 to 1. */
const light = `--paper:#fff;--ink:#16212b;--quiet:#4d5b66;--rule:#cfd6db;--line:#16212b;--band:#e3edf0;
--petrol:#1d5468;--on-petrol:#fff;--ochre:#8a5a0b;--ochre-pale:#e2bf82;--on-ochre-pale:#16212b;`;

const dark = `--paper:#12191f;--ink:#e8edf0;--quiet:#aab6bf;--rule:#35424c;--line:#8b98a2;--band:#21333c;
--petrol:#86bfd2;--on-petrol:#0c1216;--ochre:#dcae62;--ochre-pale:#7d5d29;--on-ochre-pale:#fff;`;

/** Like a ledger: headings in the margin, a double rule over the answer, hairlines below, no boxes and no fills. */
const screen = `
:root{color-scheme:light dark;${light}}
@media screen and (prefers-color-scheme:dark){:root{${dark}}}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0 auto;max-width:74rem;padding:1rem;background:var(--paper);color:var(--ink);
font:1rem/1.5 system-ui,-apple-system,"Segoe UI",Roboto,"Noto Sans",sans-serif;overflow-wrap:anywhere}
h1,h2,h3,.lead{font-family:ui-serif,Charter,"Bitstream Charter",Cambria,Georgia,serif;font-weight:600;line-height:1.25}
h1{font-size:1.5rem;margin:0}
h2{font-size:1.15rem;margin:0 0 .6rem}
h3{font-size:1.05rem;margin:1.6rem 0 .4rem}
.body>:first-child{margin-top:0}
p{margin:.5rem 0;max-width:44rem}
ul{padding-left:1.2rem;max-width:44rem}
.over{margin:0;font-size:.875rem;color:var(--quiet)}
.quiet{color:var(--quiet);font-size:.875rem}
header{padding-bottom:.6rem}
header .quiet{margin:.2rem 0 0}
section{border-top:1px solid var(--line);padding:1.1rem 0 1.4rem}
#result{border-top:3px double var(--line)}
.answer{margin:0 0 1rem}
.lead{font-size:1.15rem;font-weight:400;margin:0;max-width:52rem}
.lead strong{font-weight:700}
.future{display:block}
nav{border-top:1px solid var(--line);padding:.8rem 0}
nav ul{list-style:none;font-size:.9375rem;margin:0;padding:0;max-width:none;display:flex;flex-wrap:wrap;gap:.2rem 1.2rem}
a{color:var(--petrol);text-underline-offset:.15em}
nav a{display:inline-block;padding:.15rem 0}
.box{overflow-x:auto;margin:.8rem 0;max-width:100%}
:focus-visible{outline:2px solid var(--petrol);outline-offset:2px}
table{border-collapse:collapse;font-size:.875rem;font-variant-numeric:tabular-nums;overflow-wrap:normal;min-width:min(100%,34rem)}
.caption{font-weight:600;font-size:.875rem;margin:1.2rem 0 0}.caption+.box{margin-top:.3rem}
th,td{text-align:left;vertical-align:baseline;padding:.3rem 1rem .3rem 0;border-bottom:1px solid var(--rule)}
thead th{font-weight:600;border-bottom:1px solid var(--line);vertical-align:bottom}
tbody th{font-weight:400}
.figures td,.figures thead th+th{text-align:right;white-space:nowrap}
.figures thead th{white-space:normal}
tbody th{min-width:4.5rem;max-width:22rem}
.long{overflow-wrap:anywhere;min-width:8rem}
table .quiet{font-size:inherit}

.unbroken{white-space:nowrap;overflow-wrap:normal}
.figures thead .words,.figures .words{text-align:left;white-space:normal}
.words{min-width:11rem;max-width:24rem}
code{font:.8125rem/1.4 ui-monospace,Consolas,Menlo,monospace;overflow-wrap:anywhere}
.unseen{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
figure{margin:1rem 0}
figcaption{font-size:.875rem;color:var(--quiet);max-width:44rem}
figcaption strong{color:var(--ink)}
figure svg[role=img]{display:block;width:100%;height:auto}
svg text{font-family:system-ui,-apple-system,"Segoe UI",Roboto,"Noto Sans",sans-serif;paint-order:stroke}
.wide{display:none}
.fills{position:absolute}
.legend{list-style:none;display:flex;flex-wrap:wrap;gap:.2rem 1.1rem;padding:0;margin:.3rem 0;font-size:.875rem}
.swatch{width:22px;height:14px;vertical-align:-2px}
.swatch rect{stroke:var(--ink);stroke-width:.75}
.part-0{fill:var(--petrol)}.part-1{fill:url(#fill-vapour)}.part-2{fill:var(--ochre-pale)}.part-3{fill:url(#fill-room)}.part-4{fill:url(#fill-body)}.part-5{fill:url(#fill-air)}.part-6{fill:var(--paper)}
.grid{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,19rem),1fr));gap:.6rem 1.6rem}
.card{margin:.4rem 0;min-width:0}
.beside>div{min-width:0}
.beside table{min-width:0}
details{margin:.5rem 0}
summary{cursor:pointer;padding:.2rem 0}
.behind summary{font-size:.875rem;color:var(--quiet)}
dl{margin:0}dl div{margin:0 0 .7rem;max-width:44rem}dt{font-weight:600}dd{margin:0}
@media (min-width:46rem){
.beside{display:grid;grid-template-columns:21rem minmax(0,1fr);column-gap:1.6rem}
body{padding:2rem}h1{font-size:1.9rem}.lead{font-size:1.35rem}
.wide{display:block}.narrow{display:none}}
@media (min-width:64rem){
section{display:grid;grid-template-columns:11rem minmax(0,1fr);column-gap:2rem}
nav{padding-left:13rem}
}
`;

/** A4 and Letter: the printer says which. Nothing scrolls, nothing is cut, heads of tables repeat. */
const print = `
@page{margin:16mm 15mm 18mm;@bottom-right{content:counter(page) " / " counter(pages);font:9pt system-ui,sans-serif;color:#4d5b66}}
@media print{
:root{color-scheme:light}
body{max-width:none;padding:0;font-size:10pt}
h1{font-size:17pt}.lead{font-size:13pt}
section{display:block;padding:9pt 0}
nav,.behind{display:none}
.wide{display:block}.narrow{display:none}
.box{overflow:visible}
table{font-size:8pt;min-width:0;width:100%}
th,td{padding-right:5pt}
.long{min-width:0}
.figures td{white-space:normal}
td.words,th.words{min-width:0}
tbody th{min-width:60pt}
code{font-size:7pt}
thead{display:table-header-group}
tr,figure,.short,.answer,.legend,dl div,li{break-inside:avoid}
h2,h3,h3+p,summary,.caption{break-after:avoid}
.grid{grid-template-columns:1fr 1fr}
details::details-content{content-visibility:visible;display:block}
summary{list-style:none;font-weight:600}
*{-webkit-print-color-adjust:exact;print-color-adjust:exact}
}
`;

/** The whole style sheet of the page. */
export const styles = (screen + print).replace(/\n/g, '');
