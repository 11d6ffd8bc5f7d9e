export const clubText = {
  units: 'Masses and temperatures in',
  metric: 'kg and °C',
  imperial: 'lb and °F',
  colours: 'Colours',
  light: 'Light',
  dark: 'Dark',
  auto: 'As the device',
  account: 'Account',
  changePassword: 'Change the password',
  currentPassword: 'Password now',
  newPassword: 'New password',
  changed: 'Changed.',
};
