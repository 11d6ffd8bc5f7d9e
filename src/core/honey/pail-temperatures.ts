import { at } from './at';
import type { CylinderField } from './cylinder-field';

/** What a thermometer would show at the places that matter. */
export interface PailTemperatures {
  /** On the axis at mid height. */
  coreC: number;
  /** Mean over side, top and bottom. */
  surfaceC: number;
  /** Of all the honey, by mass. */
  meanC: number;
  coldestC: number;
  warmestC: number;
  /** Of the crystals there were, 0 to 100. */
  meltedPercent: number;
}

/**
 * Reads a field whose cells hold means: on the axis and at the surface by parabolas that have the
 * means of the two nearest cells, at rims by both. The coldest and the warmest point are sought on
 * the axis, at the surface and at the rims.
 */
export function readTemperatures(field: CylinderField, airC: number): PailTemperatures {
  const { rings, layers } = field.grid;
  const axis = axisTemperatures(field);
  const surface = readSurface(field, airC);
  let heat = 0;
  let molten = 0;
  for (let cell = 0; cell < rings * layers; cell += 1) {
    const massKg = at(field.grid.cellMassKg, cell);
    heat += massKg * at(field.temperatureC, cell);
    molten += massKg * at(field.melted, cell);
  }
  return {
    coreC: middle(axis),
    surfaceC: surface.meanC,
    meanC: heat / field.grid.massKg,
    coldestC: Math.min(extreme(axis, -1), surface.coldestC),
    warmestC: Math.max(extreme(axis, 1), surface.warmestC),
    meltedPercent: (100 * molten) / field.grid.massKg,
  };
}

/** The coldest point on the axis alone: cheap enough to be asked after every step of a warming. */
export function coldestOnAxisC(field: CylinderField): number {
  return extreme(axisTemperatures(field), -1);
}

/** The warmest point of all: on the axis, at the surface or at a rim. */
export function warmestC(field: CylinderField, airC: number): number {
  return Math.max(extreme(axisTemperatures(field), 1), readSurface(field, airC).warmestC);
}

function axisTemperatures(field: CylinderField): Float64Array {
  const { layers } = field.grid;
  const { axis } = field.work;
  for (let layer = 0; layer < layers; layer += 1) {
    const inner = at(field.temperatureC, layer);
    axis[layer] = inner + (inner - at(field.temperatureC, layers + layer)) / 4;
  }
  return axis;
}

function readSurface(field: CylinderField, airC: number) {
  const { grid, temperatureC } = field;
  const { rings, layers, surfaceShare } = grid;
  const outermost = (rings - 1) * layers;
  const highest = layers - 1;
  let coldestC = Infinity;
  let warmestC = -Infinity;
  let heat = 0;
  const see = (surfaceC: number, areaM2: number) => {
    coldestC = Math.min(coldestC, surfaceC);
    warmestC = Math.max(warmestC, surfaceC);
    heat += areaM2 * surfaceC;
  };
  const below = (outer: number, inner: number, share: number) =>
    airC + (share * (7 * (outer - airC) - (inner - airC))) / 6;
  const sideAt = (layer: number) =>
    below(
      at(temperatureC, outermost + layer),
      at(temperatureC, outermost - layers + layer),
      surfaceShare.side,
    );

  for (let layer = 0; layer < layers; layer += 1) see(sideAt(layer), grid.layerRimM2);
  for (let ring = 0; ring < rings; ring += 1) {
    const [first, last] = [ring * layers, ring * layers + highest];
    const bottom = [at(temperatureC, first), at(temperatureC, first + 1)] as const;
    const top = [at(temperatureC, last), at(temperatureC, last - 1)] as const;
    see(below(...bottom, surfaceShare.bottom), at(grid.ringFaceM2, ring));
    see(below(...top, surfaceShare.top), at(grid.ringFaceM2, ring));
  }
  see(below(sideAt(0), sideAt(1), surfaceShare.bottom), 0);
  see(below(sideAt(highest), sideAt(highest - 1), surfaceShare.top), 0);

  const faceM2 = grid.ringFaceM2.reduce((sum, areaM2) => sum + areaM2, 0);
  return { meanC: heat / (layers * grid.layerRimM2 + 2 * faceM2), coldestC, warmestC };
}

/** The value in the middle of the middle layer, from its mean. */
function middle(profile: Float64Array): number {
  const layer = (profile.length - 1) / 2;
  const mean = at(profile, layer);
  return mean - (at(profile, layer + 1) - 2 * mean + at(profile, layer - 1)) / 24;
}

/**
 * Lowest (direction −1) or highest (1) value of a smooth profile along the height: the vertex of the
 * parabola that has the means of the extreme layer and its neighbours. Beyond the last layer the
 * profile is taken to turn back, as at a face that passes no heat; other faces are read themselves.
 */
function extreme(profile: Float64Array, direction: -1 | 1): number {
  const last = profile.length - 1;
  let best = 0;
  for (let index = 1; index <= last; index += 1) {
    if (direction * (at(profile, index) - at(profile, best)) > 0) best = index;
  }
  const before = at(profile, Math.max(0, best - 1));
  const after = at(profile, Math.min(last, best + 1));
  const bend = after - 2 * at(profile, best) + before;
  if (bend === 0) return at(profile, best);
  return at(profile, best) - bend / 24 - (after - before) ** 2 / (8 * bend);
}
