/** A curve has at most one point more than this. */
export const MOST_SAMPLES = 48;

/** W/m²·K, free convection of air; see the note. */
export const USUAL_FILM = 5;

export const filmNote =
  'Free convection of gases is published as 2 to 25 W/m²·K, forced convection as 25 to 250; 5 is a cautious value for still air about a pail, not a ' +
  'measured one. It matters more than anything else here: log one warm-up of your own cabinet and compare.';

export const conduction =
  'Conduction in an upright cylinder of 8 rings and 11 layers with the same film of air on side, top and bottom; crystals melt over their ' +
  'range and do not come back. The pail’s wall, stirring and the flow of melted honey are left out: stirred pails are faster.';

export const conductionSource =
  'Carslaw & Jaeger 1959, Conduction of Heat in Solids; Peaceman & Rachford 1955 (alternating directions); Helvey 1954 and Detroy (conductivity), ' +
  'Helvey 1954 (specific heat), White, USDA (density); Venir, Spaziani & Maltini 2010 and Lupano 1997 (melting).';

export const conductionRange =
  '15 to 21 % water, up to 25 g of crystals per 100 g, honey and air of −30 to 75 °C, pails 8 to 100 cm wide and high. Times agree with the ' +
  'analytic solution within about 0.3 %; what film and crystals are in truth matters far more.';
