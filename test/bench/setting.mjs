// How long the statistics of setting times take, as ratios to other libraries' recorded times.
//
// The same batches are made by the same generator as in test/references/survival/time-fits.R, whose
// times (R 4.2.2, survival 3.5-3, median of 5, on a shared machine of two cores) stand in the README
// beside it. Where Rscript is on the path with that package, its time is measured here as well.

import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import os from 'node:os';
import path from 'node:path';
import { performance } from 'node:perf_hooks';
import { gen, SEEDS } from '../references/survival/gen-timing.mjs';

const require = createRequire(import.meta.url);
const { fitTurnbull } = require('../../dist/src/core/setting/turnbull.js');
const { fitRegression } = require('../../dist/src/core/setting/regression/fit-regression.js');

const RUNS = 5;
const RECORDED_SECONDS = {
  2000: { weibull: 0.016, lognormal: 0.014, loglogistic: 0.0115 },
  50000: { weibull: 0.69, lognormal: 0.395, loglogistic: 0.455 },
};
/** Whole days, all batches together. */
const TURNBULL_SECONDS = { 'R survfit': 1.15, npsurv: 0.016 };
const NUMBERS = ['temperature', 'seedPct', 'moisture', 'ageDays'];

const median = (values) => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];

function dataOf(rows) {
  const levels = [...new Set(rows.map(({ source }) => source))].sort();
  const sources = rows.map(({ source }) => source);
  return {
    observations: rows.map(({ lower, upper }) => ({ lower, upper })),
    covariates: [
      { kind: 'factor', name: 'source', levels, values: sources },
      ...NUMBERS.map((name) => ({ kind: 'numeric', name, values: rows.map((row) => row[name]) })),
    ],
  };
}

function ourSeconds(data, distribution) {
  const runs = Array.from({ length: RUNS }, () => {
    const start = performance.now();
    const fit = fitRegression(data, distribution);
    return { seconds: (performance.now() - start) / 1000, fit };
  });
  return { seconds: median(runs.map(({ seconds }) => seconds)), fit: runs[0].fit };
}

function measuredSeconds(rows, distribution) {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'setting-bench-'));
  const lines = rows.map((row) =>
    [row.lower || 'NA', row.upper ?? 'NA', row.source, ...NUMBERS.map((name) => row[name])].join(),
  );
  const header = ['lower', 'upper', 'source', ...NUMBERS].join();
  writeFileSync(path.join(folder, 'rows.csv'), [header, ...lines].join('\n'));
  const program = `suppressPackageStartupMessages(library(survival)); d <- read.csv("rows.csv")
    y <- Surv(d$lower, d$upper, type = "interval2")
    f <- function() survreg(y ~ source + temperature + seedPct + moisture + ageDays, data = d, dist = "${distribution}")
    cat(median(replicate(${RUNS}, system.time(f())[["elapsed"]])))`;
  const run = spawnSync('Rscript', ['-e', program], { cwd: folder, encoding: 'utf8' });
  rmSync(folder, { recursive: true });
  return run.status === 0 ? Number(run.stdout) : null;
}

/** Regressions with four numbers and six sources, then the curve of all batches without any shape supposed. */
export function compareSetting() {
  console.log('batches  distribution  here      recorded  here/recorded  measured  here/measured');
  for (const [count, recorded] of Object.entries(RECORDED_SECONDS)) {
    const rows = gen(Number(count), SEEDS[count]);
    const data = dataOf(rows);
    for (const [distribution, recordedSeconds] of Object.entries(recorded)) {
      const { seconds, fit } = ourSeconds(data, distribution);
      const other = measuredSeconds(rows, distribution);
      console.log(
        [
          count.padEnd(7),
          distribution.padEnd(12),
          `${seconds.toFixed(4)} s`.padEnd(8),
          `${recordedSeconds} s`.padEnd(8),
          (seconds / recordedSeconds).toFixed(2).padEnd(13),
          (other === null ? '-' : `${other} s`).padEnd(8),
          other === null ? '-' : (seconds / other).toFixed(2),
          `(${fit.iterations} iterations, logLik ${fit.logLik.toFixed(3)})`,
        ].join('  '),
      );
    }
  }
  compareTurnbull();
}

function compareTurnbull() {
  const observations = gen(20_000, SEEDS[20000]).map(({ lower, upper }) => ({ lower, upper }));
  const runs = Array.from({ length: RUNS }, () => {
    const start = performance.now();
    fitTurnbull(observations);
    return (performance.now() - start) / 1000;
  });
  const seconds = median(runs);
  const ratios = Object.entries(TURNBULL_SECONDS).map(
    ([library, recorded]) => `${(seconds / recorded).toFixed(2)} of ${library}'s ${recorded} s`,
  );
  console.log(`20000    Turnbull      ${seconds.toFixed(4)} s  ${ratios.join(', ')}\n`);
}
