/** What can hurt somebody or spoil the honey, in the words that go with every result that it matters for. */
export const cautions = {
  estimates: 'Calculated times are estimates: look at the honey.',
  burns: 'Hot honey and microwaved seed burn: stir and test.',
  lifting: 'A pail of 25 to 30 kg is a lift for two people or a hoist.',
  infants: 'Honey is not for infants under 12 months; no warming of honey makes it safe for them.',
  bees: 'Never feed shared or bought honey to bees: it may carry foulbrood spores.',
  mixer:
    'At a power mixer wear hearing protection, no loose sleeves or hair, and touch nothing that turns.',
  gear: 'Work clean and dry, with food-grade gear.',
  law: 'Labels, lot marks, net weight, food registration and bee-disease duties follow your local law: ask the local authority or a licensed practitioner.',
} as const;

export type CautionTopic = keyof typeof cautions;

export const cautionTopics = Object.keys(cautions) as CautionTopic[];
