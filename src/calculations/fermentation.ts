import { fermentationClass, fermentationForecast } from '../core/honey/fermentation';
import type { FermentationRisk } from '../core/honey/fermentation';
import { cautions } from '../core/cautions';
import type { FermentationRequest } from './fermentation.requests';
import type { FermentationResponse, FermentationState } from './fermentation.responses';
import { reckoned, rounded } from './reckoned';
import { USUAL } from './usual-honey';
import { sent } from './sent';

const basis = {
  method:
    'Bands of moisture within which honeys with fewer than so many yeasts per gram did not ferment within a year. Glucose takes little water ' +
    'into its crystals (9.09 %), so the liquid left between them is wetter than the honey was: (water − 0.0909 · crystals) / (1 − crystals). ' +
    'It is judged by the same bands, which is the cautious reading.',
  source: 'Lochhead 1933, Zentralblatt für Bakteriologie II 88, 296–302 (bands); mass balance.',
  validRange: '10 to 30 % water; 0 to 25 g of crystals per 100 g; a year of keeping.',
  cautions: [cautions.gear, cautions.infants, cautions.bees, cautions.law],
};

/** Whether a honey will keep, now and once it has set. */
export function reckonFermentation(request: FermentationRequest): FermentationResponse {
  const { moisturePercent, yeastPerG, crystalPercent = USUAL.crystalPercent } = request;
  const places = { waterPercent: '#/moisturePercent', crystalPercent: '#/crystalPercent' };
  return reckoned(places, () => {
    const forecast = fermentationForecast({
      waterPercent: moisturePercent,
      crystalPercent,
      ...(yeastPerG !== undefined && { yeastPerG }),
    });
    const afterSetting = stateOf(forecast.liquidWaterPercent, forecast.afterSetting);
    return {
      inputs: { ...sent(request), crystalPercent },
      before: stateOf(moisturePercent, forecast.before),
      afterSetting,
      worsensOnSetting: forecast.worsensOnSetting,
      warning: warningOf(forecast.before, afterSetting),
      ...basis,
    };
  });
}

function stateOf(waterPercent: number, risk: FermentationRisk): FermentationState {
  const found = fermentationClass(waterPercent);
  return {
    moisturePercent: rounded(waterPercent, 2),
    class: found.kind,
    safeBelowYeastPerG: found.kind === 'safe-below-count' ? found.yeastPerG : null,
    risk,
  };
}

function warningOf(before: FermentationRisk, after: FermentationState): string | null {
  if (before === 'in-danger') return 'It may ferment as it is: keep it cold or use it soon.';
  if (after.risk === 'in-danger') {
    return `Once set, the liquid between the crystals has ${after.moisturePercent} % water and may ferment: blend with drier honey first, or keep it cold.`;
  }
  if (after.risk === 'count-unknown') {
    return `Once set, it is safe only below ${after.safeBelowYeastPerG ?? 1} yeasts per gram; nobody has counted them.`;
  }
  return null;
}
