import { MELTING_RANGE_BY_GRAIN } from '../core/honey/crystals';
import { blendSeed, type Blend } from '../core/honey/seed-blend';
import { grainForecast } from '../core/honey/seed-grain';
import type { SeedAndHoney } from '../core/honey/seed-mass';
import { specificHeatJPerKgK } from '../core/honey/specific-heat';
import { invalidField } from '../core/refusal';
import { cautions } from '../core/cautions';
import { reckoned, rounded } from './reckoned';
import { reckonBuildUp } from './seed-build-up';
import { massesBy, toSeedMasses } from './seed-masses';
import type { SeedingRequest } from './seeding.requests';
import type { SeedBlendHeat, SeedingResponse } from './seeding.responses';
import { USUAL } from './usual-honey';
import { sent } from './sent';

const basis = {
  method:
    'Mass balances: seed per honey is honey · percent / 100, seed of the blend is honey · percent / (100 − percent); a wanted blend is split ' +
    'into whole grams. Moisture by mass. Temperature from the heat balance of both parts, the heat that melts seed crystals included; ' +
    'crystals melt evenly over their range (a medium grain is taken to melt as early as a fine one). Grain follows the seed.',
  source:
    'Mass and heat balances; Venir, Spaziani & Maltini 2010 (heat of melting); Lupano 1997 (melting ranges); Helvey 1954 (specific heat); ' +
    'FAO Agricultural Services Bulletin 124 (24 to 28 °C for stirring seed in). Grain: common practice, no source.',
  validRange:
    'Up to 100 g of seed for 100 g of honey, or 50 % of the blend; temperatures −20 to 80 °C; 13 to 21 % water; crystals 0 to 25 g per 100 g.',
  cautions: [
    cautions.burns,
    cautions.mixer,
    cautions.lifting,
    cautions.gear,
    cautions.bees,
    cautions.infants,
    cautions.estimates,
  ],
};

type Filled = SeedingRequest &
  Required<
    Pick<
      SeedingRequest,
      'honeyMoisturePercent' | 'seedMoisturePercent' | 'seedCrystalPercent' | 'seedGrain'
    >
  >;

/** How much seed to weigh, and what the blend will be. */
export function reckonSeeding(request: SeedingRequest): SeedingResponse {
  if ((request.honeyKg === undefined) === (request.wantedBlendKg === undefined)) {
    throw invalidField('#', 'Give either honeyKg or wantedBlendKg.');
  }
  const inputs = filled(request);
  const chosen = massesBy(inputs.convention, inputs);
  const masses = toSeedMasses(chosen);
  const { honeyGrain, seedGrain, buildUp } = inputs;
  const blendHeat = heatOf(inputs, chosen);
  const grain = honeyGrain === undefined ? null : grainForecast(seedGrain, honeyGrain);
  const percentOfBlend = (100 * chosen.seedMassG) / chosen.blendMassG;

  return {
    inputs,
    masses,
    ifPerHoney: toSeedMasses(massesBy('perHoney', inputs)),
    ifOfBlend: inputs.percent > 50 ? null : toSeedMasses(massesBy('ofBlend', inputs)),
    blendMoisturePercent: rounded(
      (chosen.honeyMassG * inputs.honeyMoisturePercent +
        chosen.seedMassG * inputs.seedMoisturePercent) /
        chosen.blendMassG,
      2,
    ),
    blendHeat,
    grain,
    warning: warningOf(blendHeat, grain?.seedTooCoarse === true),
    buildUp: buildUp === undefined ? null : reckonBuildUp(buildUp, percentOfBlend),
    ...basis,
  };
}

function filled(request: SeedingRequest): Filled {
  const { honeyMoisturePercent = USUAL.moisturePercent, buildUp } = request;
  return {
    ...sent(request),
    honeyMoisturePercent,
    seedMoisturePercent: request.seedMoisturePercent ?? honeyMoisturePercent,
    seedCrystalPercent: request.seedCrystalPercent ?? USUAL.crystalPercent,
    seedGrain: request.seedGrain ?? 'fine',
    ...(buildUp && {
      buildUp: { ...sent(buildUp), batchesPerMonth: buildUp.batchesPerMonth ?? 1 },
    }),
  };
}

function heatOf(inputs: Filled, masses: SeedAndHoney): SeedBlendHeat | null {
  const { honeyC, seedC, honeyMoisturePercent, seedMoisturePercent } = inputs;
  if (honeyC === undefined || seedC === undefined) return null;
  const part = (name: 'honey' | 'seed', temperatureC: number, waterPercent: number) =>
    reckoned({ waterPercent: `#/${name}MoisturePercent` }, () => ({
      massG: name === 'honey' ? masses.honeyMassG : masses.seedMassG,
      temperatureC,
      waterPercent,
      specificHeatJPerKgK: specificHeatJPerKgK(waterPercent),
    }));
  const honey = part('honey', honeyC, honeyMoisturePercent);
  const seed = part('seed', seedC, seedMoisturePercent);
  const melting = MELTING_RANGE_BY_GRAIN[inputs.seedGrain === 'coarse' ? 'coarse' : 'fine'];
  const places = {
    crystalPercent: '#/seedCrystalPercent',
    temperatureC: Math.abs(honeyC - 30) > Math.abs(seedC - 30) ? '#/honeyC' : '#/seedC',
  };
  const blend = reckoned(places, () =>
    blendSeed(honey, { ...seed, ...melting, crystalPercent: inputs.seedCrystalPercent }),
  );
  return {
    temperatureC: rounded(blend.temperatureC, 1),
    seedMeltedPercent: rounded(100 * blend.seedMelted, 1),
    meltsOnContact: blend.meltsOnContact,
    verdict: verdictOf(blend),
  };
}

function verdictOf({ tooWarm, warmish }: Blend): SeedBlendHeat['verdict'] {
  if (tooWarm) return 'too-warm';
  return warmish ? 'warmish' : 'fine';
}

function warningOf(heat: SeedBlendHeat | null, seedTooCoarse: boolean): string | null {
  const words = [
    ...(heat?.verdict === 'too-warm'
      ? ['The blend is warmer than any published recipe: let the honey cool to 24 °C first.']
      : []),
    ...(heat?.meltsOnContact === true
      ? ['The honey melts seed where they first meet: let it cool first.']
      : []),
    ...(seedTooCoarse
      ? ['The seed is coarser than this honey would set by itself: take finer seed.']
      : []),
  ];
  return words.length === 0 ? null : words.join(' ');
}
