// How fast the warming of pails is reckoned, beside the plainest way to do it: small explicit steps on the same grid.
import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);
const { warmPails } = require('../../dist/src/core/honey/warm-pails.js');
const { TRIAL_GRID, defaultGridSize } = require('../../dist/src/core/honey/cylinder-grid.js');

// The pail of the plausibility test: 25 kg, crystals melting from 35 to 45 °C.
const shape = { diameterM: 0.29, fillHeightM: 0.267 };
const honey = {
  densityKgPerM3: 1421,
  specificHeatJPerKgK: 2260,
  conductivityWPerMK: 0.536,
  meltingHeatJPerKg: 16_300,
  meltingFromC: 35,
  meltingToC: 45,
};
const film = 5;

export function compareHoney() {
  const plan = (grid) => ({
    pails: [
      {
        count: 10,
        shape,
        honey,
        films: { sideWPerM2K: film, topWPerM2K: film, bottomWPerM2K: film },
        startC: 12,
        ...(grid && { grid }),
      },
    ],
    air: { kind: 'held', temperatures: [{ fromHours: 0, temperatureC: 45 }] },
    untilHours: 96,
  });
  const usual = middleMs(() => warmPails(plan()));
  const trial = middleMs(() => warmPails(plan(TRIAL_GRID)));
  const explicit = middleMs(() => explicitSteps(defaultGridSize(shape)), 3);
  console.log(
    `10 pails, 96 hours            ratio ${(explicit / usual).toFixed(1)} to explicit steps   ${usual.toFixed(1)} ms (aim: below 50), explicit ${explicit.toFixed(0)} ms\n` +
      `the same on the trial grid    ${Math.round(1000 / trial)} what-ifs a second (aim: 200)`,
  );
}

function middleMs(work, times = 60) {
  for (let warmingUp = 0; warmingUp < times / 2; warmingUp++) work();
  const took = Array.from({ length: times }, () => {
    const began = performance.now();
    work();
    return performance.now() - began;
  });
  return took.sort((a, b) => a - b)[Math.floor(times / 2)];
}

/** Heat flows between neighbouring rings and layers in steps short enough to be stable. */
function explicitSteps({ rings, layers }) {
  const dr = shape.diameterM / 2 / rings;
  const dz = shape.fillHeightM / layers;
  const heat = honey.densityKgPerM3 * honey.specificHeatJPerKgK;
  const stepS = (0.2 * heat * Math.min(dr, dz) ** 2) / honey.conductivityWPerMK;
  const field = Array.from({ length: rings }, () => new Float64Array(layers).fill(12));
  const toAir = (distance) => 1 / (1 / film + distance / 2 / honey.conductivityWPerMK);
  for (let time = 0; time < 96 * 3600; time += stepS) {
    const before = field.map((ring) => ring.slice());
    for (let i = 0; i < rings; i++) {
      for (let j = 0; j < layers; j++) {
        const here = before[i][j];
        const inner = i === 0 ? 0 : (i * (before[i - 1][j] - here) * honey.conductivityWPerMK) / dr;
        const outer =
          (i + 1) *
          (i === rings - 1
            ? (45 - here) * toAir(dr)
            : ((before[i + 1][j] - here) * honey.conductivityWPerMK) / dr);
        const along = (next) =>
          next === undefined
            ? (45 - here) * toAir(dz)
            : ((next - here) * honey.conductivityWPerMK) / dz;
        const melting =
          here >= 35 && here < 45 ? (honey.densityKgPerM3 * honey.meltingHeatJPerKg) / 10 : 0;
        const gain =
          (inner + outer) / ((i + 0.5) * dr) +
          (along(before[i][j - 1]) + along(before[i][j + 1])) / dz;
        field[i][j] = here + (gain * stepS) / (heat + melting);
      }
    }
  }
  return field;
}
