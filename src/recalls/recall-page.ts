import { cautions } from '../core/cautions';
import { writtenLotCode } from '../core/marks/lot-code';
import { loanWords, placeWords, potWords, withdrawalWords } from './recall-csv';
import type { RecalledLotResponse, RecallResponse } from './recalls.responses';

/**
 * The report as a page to print and to make calls from: for each holder what they have of the suspect lot. It stands alone, without
 * scripts or other files.
 */
export function recallPage(clubName: string, day: string, report: RecallResponse): string {
  const { name, totals, notListed } = report;
  const title = `Recall of “${name}”`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<style>${style}</style>
</head>
<body>
<h1>${escaped(title)}</h1>
<p>${escaped(clubName)}, as it stood on ${day}. The lot began with ${report.initialMassKg} kg and is in
${totals.lots - 1} other lots; ${totals.holders} members hold one of them.</p>
<table class="totals">
<caption>Where all of it is</caption>
<tr><th scope="row">still in lots</th><td>${totals.inLotsKg} kg</td></tr>
<tr><th scope="row">in pots</th><td>${totals.pottedKg} kg</td></tr>
<tr><th scope="row">withdrawn for some use</th><td>${totals.withdrawnKg} kg</td></tr>
<tr><th scope="row">lost</th><td>${totals.lostKg} kg</td></tr>
<tr class="sum"><th scope="row">together</th><td>${totals.foundKg} kg</td></tr>
</table>
${notListed.lots === 0 ? '' : `<p>${notListed.lots} lots with too little of it are not listed: ${notListed.foundKg} kg of it together.</p>`}
${[...byHolder(report.items)].map(([, lots]) => section(lots)).join('\n')}
<footer>
<p>Masses are of the suspect lot unless said otherwise, rounded so that they add up to the gram; honey counts as mixed evenly.</p>
<p>${escaped(cautions.law)}</p>
</footer>
</body>
</html>
`;
}

function byHolder(
  items: readonly RecalledLotResponse[],
): ReadonlyMap<string, RecalledLotResponse[]> {
  const lots = new Map<string, RecalledLotResponse[]>();
  for (const item of items) {
    lots.set(item.holder.id, [...(lots.get(item.holder.id) ?? []), item]);
  }
  return lots;
}

function section(lots: readonly RecalledLotResponse[]): string {
  return `<section>
<h2>${escaped(lots[0]?.holder.name ?? '')}</h2>
<table>
<thead><tr><th>lot</th><th>share</th><th>still there</th><th>in pots</th><th>pots of the batch</th><th>where</th><th>lent on, withdrawn</th><th>told</th></tr></thead>
<tbody>
${lots.map(line).join('\n')}
</tbody>
</table>
</section>`;
}

function line(lot: RecalledLotResponse): string {
  const gone = [loanWords(lot), withdrawalWords(lot)].filter((text) => text !== '').join('; ');
  const held = lot.onHold.length > 0 ? '<br><strong>on hold</strong>' : '';
  return `<tr>
<td>${escaped(lot.name)} (${lot.kind})${held}<br><span class="mark">${writtenLotCode(lot.code)}</span></td>
<td class="number">${percentOf(lot.share)}</td>
<td class="number">${lot.inLotsKg} kg<br><small>of ${lot.remainingMassKg} kg</small></td>
<td class="number">${lot.pottedKg} kg</td>
<td>${escaped(potWords(lot))}</td>
<td>${escaped(placeWords(lot))}</td>
<td>${escaped(gone)}</td>
<td class="tick"></td>
</tr>`;
}

function percentOf(share: number): string {
  const percent = share * 100;
  return percent > 0 && percent < 0.01 ? 'below 0.01 %' : `${Number(percent.toFixed(2))} %`;
}

const entities: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (character) => entities[character] ?? '');
}

const style = `
:root { color-scheme: light; }
body { font: 1rem/1.5 Georgia, 'Times New Roman', serif; color: #2b2118; background: #fffdf7; margin: 2rem auto; max-width: 64rem; padding: 0 1rem; }
h1 { font-size: 1.7rem; margin-bottom: .2rem; border-bottom: .3rem double #8a5a00; }
h2 { font-size: 1.2rem; margin: 1.6rem 0 .3rem; }
table { border-collapse: collapse; width: 100%; }
table.totals { width: auto; }
caption { text-align: left; font-style: italic; padding-bottom: .3rem; }
th, td { border-top: 1px solid #b9a98f; padding: .3rem .6rem; text-align: left; vertical-align: top; }
thead th { border-top: 0; font-weight: normal; font-style: italic; }
.totals td, .number { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; }
.sum th, .sum td { border-top: 2px solid #2b2118; }
.tick { border: 1px solid #2b2118; min-width: 2rem; }
small { color: #5d4d3b; }
.mark { white-space: nowrap; font-variant-numeric: tabular-nums; }
td:first-child { min-width: 9rem; }
footer { margin-top: 2rem; font-size: .9rem; }
@media print {
  @page { margin: 1.5cm; }
  body { background: #fff; color: #000; margin: 0; max-width: none; padding: 0; font-size: 10pt; }
  tr { break-inside: avoid; }
  thead { display: table-header-group; }
  h2 { break-after: avoid; }
}`;
