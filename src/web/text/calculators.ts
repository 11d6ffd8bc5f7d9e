export const calculatorsText = {
  title: 'Reckon',
  intro: 'Everybody may reckon here, with or without an account.',
};
