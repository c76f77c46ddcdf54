#include "report/html/style.h"

namespace docket {

const std::string_view html_style = R"css(
:root{--ink:#1d2125;--soft:#565d63;--rule:#c9cdd1;--tint:#f4f5f5}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%}
body{margin:0;background:#fff;color:var(--ink);font:1rem/1.55 system-ui,-apple-system,"Segoe UI",Roboto,"Helvetica Neue","Liberation Sans",Arial,sans-serif;-webkit-print-color-adjust:exact;print-color-adjust:exact}
main{max-width:46rem;margin:0 auto;padding:2.2rem 1.2rem 4rem}
.case-line{display:flex;justify-content:space-between;gap:1rem;font-size:.82rem;color:var(--soft);border-bottom:1px solid var(--rule);padding-bottom:.45rem;margin-bottom:1.4rem}
h1,h2,h3{line-height:1.25;font-weight:650;margin:0}
h1{font-size:1.75rem;margin-bottom:1.1rem;letter-spacing:-.01em}
section{margin-top:3.2rem}
h2{font-size:1.28rem;border-top:3px solid var(--ink);padding-top:.7rem;margin-bottom:.9rem}
h3{font-size:1.03rem;margin:1.9rem 0 .6rem}
h2 .number,h3 .number{display:inline-block;min-width:2.1rem;color:var(--soft);font-weight:500;font-variant-numeric:tabular-nums}
h3 .number{min-width:2.6rem}
p{margin:0 0 .8rem}
.lead{font-weight:600}
.finding{font-size:1.6rem;line-height:1.15;font-weight:750;letter-spacing:.015em;margin:.1rem 0 .75rem}
.small{font-size:.85rem;color:var(--soft)}
.quote{white-space:pre-line}
.ref{font-size:.78em;color:var(--soft);white-space:nowrap}
ul,ol{margin:0 0 .9rem;padding-left:1.25rem}
ol{padding-left:1.9rem}
li{margin:.22rem 0}
dl{margin:0 0 1rem}
dt{font-weight:600;margin-top:.7rem}
dd{margin:.1rem 0 0}
dl.dense{font-size:.79rem;line-height:1.4}
dl.columns{display:grid;grid-template-columns:6.6rem 1fr 6.6rem 1fr;gap:.28rem .6rem;align-items:baseline}
dl.columns dt{font-weight:400;margin:0;color:var(--soft);font-size:.88rem}
dl.columns dd{margin:0;padding-right:1rem;overflow-wrap:anywhere}
.boxes{display:grid;gap:1rem;margin:1.1rem 0}
.boxes.beside{grid-template-columns:1fr 1fr}
.boxes.stacked{grid-auto-rows:minmax(11rem,auto)}
.box,.strip{border:1px solid var(--rule);border-top:4px solid var(--ink);padding:.9rem 1rem .5rem;min-width:0}
.box>.box-title,.strip>.box-title{font-size:.88rem;color:var(--soft);font-weight:500;margin:0 0 .5rem}
.box h3,.strip h3{font-size:.92rem;margin:.9rem 0 .3rem}
.box p,.box li,.strip li,.strip p{font-size:.93rem}
.box .finding{font-size:1.6rem}.box .small{font-size:.82rem}
.box table{font-size:.86rem;margin-bottom:.6rem}.box td.right,.box th.right{padding-right:.55rem}.box td.right:last-child,.box th.right:last-child{padding-right:0}
.strip{margin:1.1rem 0}
.strip table{font-size:.82rem;line-height:1.28;margin-bottom:.5rem}
.strip th,.strip td{padding:.18rem .6rem .18rem 0}
.strip td:first-child,.strip th:first-child{width:14%}
.strip td:last-child,.strip th:last-child{width:30%}
.strip tr>:first-child:nth-last-child(3){width:19%}
.strip tr>:first-child:nth-last-child(3)~:last-child{width:45%}
.strip ol{columns:2;column-gap:1.6rem;padding-left:0}
.strip ol li{margin-left:1.3rem}
.strip ol li{break-inside:avoid}
.notice{border:2.5px solid var(--ink);padding:.75rem 1rem;margin:1.1rem 0;font-weight:700;font-size:1.05rem}
.box .notice{margin:.2rem 0 .8rem;font-size:.98rem;padding:.55rem .7rem}
table{border-collapse:collapse;width:100%;margin:.4rem 0 1.3rem;font-size:.88rem;line-height:1.4;font-variant-numeric:tabular-nums}
caption{text-align:left;font-weight:600;padding:.3rem 0 .45rem;caption-side:top}
.box caption{font-size:.92rem;padding:.2rem 0 .25rem}
th,td{text-align:left;vertical-align:top;padding:.34rem .7rem .34rem 0;border-bottom:1px solid var(--rule);font-weight:400;overflow-wrap:break-word}
th:last-child,td:last-child{padding-right:0}
thead th{font-weight:600;border-bottom:1.5px solid var(--ink);vertical-align:bottom}
.right{text-align:right;white-space:nowrap}
thead .right{white-space:normal}
.unbroken,.nb{white-space:nowrap}
thead .unbroken{white-space:normal}
.right+td:not(.right),.right+th:not(.right){padding-left:.9rem}
table.dense{font-size:.79rem;line-height:1.35}
table.dense th,table.dense td{padding:.26rem .55rem .26rem 0}
.hash{overflow-wrap:anywhere}
figure{margin:1.2rem 0 1.6rem}
figcaption{font-size:.85rem;color:var(--soft);margin-top:.5rem}
.figure-title{font-weight:600;font-size:.95rem;margin-bottom:.5rem}
svg{display:block;width:100%;height:auto;font-family:system-ui,-apple-system,"Segoe UI",Roboto,"Helvetica Neue","Liberation Sans",Arial,sans-serif;font-variant-numeric:tabular-nums}
details{margin:.4rem 0 1.2rem}
summary{font-weight:600;cursor:pointer;padding:.3rem 0}
.contents{margin:1.6rem 0 1rem;font-size:.88rem}
.contents p{font-weight:600;margin:0 0 .3rem}
.contents ol{list-style:none;columns:2;column-gap:1.6rem;padding:0;margin:0}
.contents li{break-inside:avoid;margin:.12rem 0}
.contents a{color:inherit;text-decoration:none}
.contents a:hover,.contents a:focus{text-decoration:underline}
.contents .number{display:inline-block;min-width:1.5rem;color:var(--soft)}
.ruled{margin:.3rem 0 .5rem}
.ruled span{display:block;height:1.9rem;border-bottom:1px solid var(--rule)}
@media screen and (max-width:40rem){.boxes.beside{grid-template-columns:1fr}dl.columns{grid-template-columns:6.6rem 1fr}.strip ol{columns:1}main{padding-top:1.2rem}table{display:block;overflow-x:auto}}
@page{size:A4;margin:11mm 17mm 12mm;@bottom-center{content:counter(page) " / " counter(pages);font:8pt sans-serif;color:#565d63}}
@media print{
html{font-size:8.45pt}
body{line-height:1.33}
main{max-width:none;padding:0}
.case-line{display:none}
.box p,.box li,.strip p,.strip li{line-height:1.3}
.box li,.strip li{margin-top:.12rem;margin-bottom:.12rem}
.box th,.box td{padding-top:.2rem;padding-bottom:.2rem}
h1{font-size:1.3rem;margin-bottom:.35rem}
section{margin-top:2rem}
.new-page{break-before:page;margin-top:0}
.contents+section{margin-top:1.2rem}
h2,h3,caption,.figure-title{break-after:avoid}
thead{display:table-header-group;break-after:avoid}
tbody tr:first-child{break-before:avoid}
dt{break-after:avoid}
tr,figure,svg,.box,.strip,.notice,dt,li{break-inside:avoid}
p,dd{orphans:3;widows:3}
p{margin-bottom:.6rem}
.boxes,.strip,.notice{margin:.4rem 0}
.strip ol{columns:3;font-size:.86em;margin-bottom:.25rem}.strip ol li{line-height:1.22}
.strip>.box-title{margin-bottom:.2rem}.strip p{margin-bottom:.2rem;font-size:.86rem}
.strip{padding-bottom:0}
.notice{padding:.45rem .8rem}
.box,.strip{padding:.6rem .85rem .2rem}
.box h3,.strip h3{margin:.4rem 0 .1rem}
.box ul,.box p{margin-bottom:.4rem}
.box .finding{font-size:1.6rem;margin-bottom:.45rem}
dl.columns{gap:.12rem .6rem;grid-template-columns:6rem 1fr 6rem 1fr;margin-bottom:.6rem}
.boxes.stacked{grid-auto-rows:minmax(52mm,auto)}
details:not([open])>*{display:block}
details::details-content{content-visibility:visible;display:block}
summary{list-style:none}
}
)css";

} // namespace docket
