import { Text, Texts } from '../platform/fields';

// What every calculation tells beside its numbers, so that nobody has to take them on trust.

export function MethodWords(): PropertyDecorator {
  return Text({ max: 2000, is: 'How the numbers come about.' });
}

export function SourceWords(): PropertyDecorator {
  return Text({ max: 2000, is: 'Where the figures are from: author, year, title.' });
}

export function ValidRangeWords(): PropertyDecorator {
  return Text({ max: 1000, is: 'For what the method holds.' });
}

export function CautionWords(): PropertyDecorator {
  return Texts({ max: 300, most: 10, is: 'What can hurt somebody or spoil the honey.' });
}
