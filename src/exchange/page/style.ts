/** Colours of the page by what they say; text on `paper` and `raised` is 4.5:1 and more, lines with a meaning 3:1. */
export const PAGE_COLOURS = {
  light: {
    paper: "#f6f2e9",
    raised: "#fdfbf6",
    ink: "#211e19",
    soft: "#575044",
    line: "#d8ceba",
    strong: "#7d7361",
    accent: "#195565",
    breach: "#a02143",
    "breach-wash": "#f6dfe2",
    tight: "#744900",
    open: "#4a398c",
    ribbon: "#ddd5c4",
    sampling: "#efd190",
    deployment: "#bfdcf5",
    survey: "#d5e2b8",
    upkeep: "#dccdd2",
    hatch: "#4d463a",
  },
  dark: {
    paper: "#15171b",
    raised: "#1e2127",
    ink: "#f1ebde",
    soft: "#bdb5a5",
    line: "#373a41",
    strong: "#8a8478",
    accent: "#88cbd4",
    breach: "#ff8b99",
    "breach-wash": "#3a1a22",
    tight: "#f0bb55",
    open: "#b9acfa",
    ribbon: "#3b3e45",
    sampling: "#5b4c26",
    deployment: "#204862",
    survey: "#33460f",
    upkeep: "#54323f",
    hatch: "#c9c1b1",
  },
} as const;

function variables(colours: Readonly<Record<string, string>>): string {
  return Object.entries(colours)
    .map(([name, value]) => `--${name}:${value};`)
    .join("");
}

/** The whole style of the page. Print is always the light one, on white. */
export const STYLE = `
:root{color-scheme:light dark;${variables(PAGE_COLOURS.light)}}
@media (prefers-color-scheme:dark){:root{${variables(PAGE_COLOURS.dark)}}}
@media print{:root{color-scheme:light;${variables({ ...PAGE_COLOURS.light, paper: "#ffffff", raised: "#ffffff" })}}}
*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:1rem/1.45 "Encode Sans",system-ui,sans-serif;font-variant-numeric:tabular-nums}
main,header,footer{max-width:90rem;margin:0 auto;padding:0 clamp(1rem,3vw,3rem)}
header{padding-top:clamp(1.25rem,3vw,2.75rem)}
h1,h2,h3,p,dl,dd,ul{margin:0}
h1{font-size:clamp(1.7rem,3.4vw,2.8rem);line-height:1.1;font-weight:700;letter-spacing:-.01em;overflow-wrap:anywhere}
h2{font-size:1.3rem;line-height:1.2;margin:2.6rem 0 .7rem;padding-top:.6rem;border-top:2px solid var(--ink)}
h3{font-size:1rem;margin:1.2rem 0 .3rem}
p,li,td,th,dd{overflow-wrap:anywhere}
.kind{color:var(--accent);font-weight:600;letter-spacing:.04em;margin-bottom:.35rem}
.soft,.under{color:var(--soft)}
.under{margin-top:.4rem}
.cleared,.barred{margin-top:1.1rem;padding:.55rem .8rem;border-left:6px solid var(--accent);background:var(--raised);font-weight:600}
.barred{border-color:var(--breach);background:var(--breach-wash);color:var(--breach)}
.figures{display:grid;grid-template-columns:repeat(auto-fit,minmax(9rem,1fr));gap:1rem 2rem;margin-top:1.3rem}
.figures dt{color:var(--soft);font-size:.85rem}
.figures dd{font-size:1.35rem;font-weight:650;line-height:1.25}
.figures small{display:block;font-size:.85rem;font-weight:400;color:var(--soft)}
.line,.wide{overflow-x:auto;margin-top:.6rem}
.line:focus-visible,.wide:focus-visible{outline:3px solid var(--accent);outline-offset:2px}
.line svg{display:block;width:100%;min-width:58rem;height:auto}
svg text{font:12px "Encode Sans",system-ui,sans-serif;fill:var(--ink);font-variant-numeric:tabular-nums}
svg .soft{fill:var(--soft)}
svg .who{font-weight:700;font-size:13px}
svg .no{font-weight:700;text-anchor:middle}
svg .grid{stroke:var(--line)}
svg .home{stroke:var(--ink);stroke-width:2}
svg .ribbon{fill:var(--ribbon)}
svg .most{fill:none;stroke:var(--breach);stroke-width:1.5;stroke-dasharray:2 3}
svg .lead{stroke:var(--strong)}
svg .block{stroke:var(--ink);stroke-width:1}
svg .must{stroke-width:2.2}
svg .sampling{fill:var(--sampling)}
svg .deployment{fill:var(--deployment)}
svg .survey{fill:var(--survey)}
svg .upkeep{fill:var(--upkeep)}
svg .hatch{stroke:var(--hatch);stroke-width:1;opacity:.34;fill:none}
svg .rest{stroke:var(--ink);stroke-width:2;fill:none}
.key{display:flex;flex-wrap:wrap;gap:.2rem 1.4rem;list-style:none;padding:0;margin-top:.4rem;color:var(--soft);font-size:.85rem}
.key svg{width:1.7em;height:1em;vertical-align:-.12em;margin-right:.4em}
table{border-collapse:collapse;width:100%;font-size:.95rem}
caption{text-align:left;font-weight:650;padding:.4rem 0}
th,td{text-align:left;vertical-align:top;padding:.38rem .9rem .38rem 0;border-bottom:1px solid var(--line)}
thead th{overflow-wrap:normal;color:var(--soft);font-weight:500;font-size:.85rem;border-bottom:1.5px solid var(--strong)}
tbody th{font-weight:600}
.at{white-space:nowrap;font-weight:600}
.num{white-space:nowrap}
.quiet td,.quiet th{color:var(--soft);font-weight:400}
.tag{font-size:.8rem;font-weight:650;white-space:nowrap}
.tag.breach{color:var(--breach)}.tag.tight{color:var(--tight)}.tag.open,.tag.mustdo{color:var(--open)}
.bar{display:block;width:6.5rem;height:.4rem;margin-top:.2rem}
.bar rect{fill:var(--line)}.bar .has{fill:var(--accent)}.bar .low{fill:var(--breach)}
footer{margin-top:3rem;padding-bottom:3rem;color:var(--soft);font-size:.9rem}
footer p{padding-top:.5rem}
footer .safety{color:var(--ink);font-weight:650;border-top:2px solid var(--ink)}
code{font:inherit;letter-spacing:.03em;overflow-wrap:anywhere}
@media (max-width:44rem){
.rows thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.rows,.rows tbody,.rows tr,.rows caption{display:block}
.rows td{display:inline-block;max-width:100%;border:0;padding:0 .6rem 0 0}
.rows td.main{display:block;font-size:1.05rem}
.rows tr{padding:.55rem 0;border-bottom:1px solid var(--line)}
.rows td:not(.main):not(.at)::before{content:attr(data-head) " ";color:var(--soft);font-size:.85rem}
.rows td:empty{display:none}
.bar{display:inline-block;width:3rem;margin:0 0 0 .3rem}
}
@page{size:A4 landscape;margin:12mm}
@media print{
body{font-size:9.5pt;line-height:1.35}
header{padding-top:0}
h1{font-size:20pt}
.figures,.cleared,.barred{margin-top:.6rem}
main,header,footer{max-width:none;padding-left:0;padding-right:0}
h2{margin-top:1.1rem;break-after:avoid}
.line,.wide{overflow:visible}
.line svg{min-width:0;max-height:88mm}
.line,.key,tr,.figures{break-inside:avoid}
caption{break-after:avoid}
thead{display:table-header-group}
*{print-color-adjust:exact}
}
`;
