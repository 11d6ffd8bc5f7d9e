import { createTheme, type MantineColorsTuple } from '@mantine/core';

// Wax, comb and slate. Every shade that carries text keeps a contrast of 4.5 to 1 on the ground it is used on.
const comb: MantineColorsTuple = [
  '#fdf3dc',
  '#f9e4b4',
  '#f2ce7f',
  '#e9b54a',
  '#d99a1f',
  '#b97c0c',
  '#996205',
  '#7c4e02',
  '#5f3b00',
  '#452a00',
];
const slate: MantineColorsTuple = [
  '#eef3f4',
  '#d9e3e6',
  '#b6c8ce',
  '#8fabb4',
  '#66899a',
  '#4a6d7d',
  '#375767',
  '#2a4553',
  '#1f3540',
  '#14242d',
];

const red: MantineColorsTuple = [
  '#fdecee',
  '#f8d3d8',
  '#f2acb5',
  '#ea8f9b',
  '#dd566a',
  '#cc3a50',
  '#b32740',
  '#9c1c2e',
  '#7d1524',
  '#5a0f1a',
];

export const theme = createTheme({
  colors: { comb, slate, red },
  primaryColor: 'comb',
  primaryShade: 7,
  autoContrast: true,
  luminanceThreshold: 0.35,
  white: '#fffdf7',
  black: '#241a0d',
  defaultRadius: 'md',
  fontFamily: 'system-ui, "Segoe UI", "Noto Sans", "DejaVu Sans", sans-serif',
  headings: { fontFamily: 'Georgia, "Noto Serif", "DejaVu Serif", serif', fontWeight: '600' },
  cursorType: 'pointer',
  respectReducedMotion: true,
  components: {
    // Sticky fingers: nothing to tap is smaller than 44 px.
    Button: {
      defaultProps: { size: 'md' },
      styles: {
        // A button that leads elsewhere is an anchor: its label would hang at the top.
        root: {
          minHeight: 44,
          height: 'auto',
          paddingBlock: 6,
          display: 'inline-grid',
          alignItems: 'center',
        },
        label: { whiteSpace: 'normal', lineHeight: 1.3 },
      },
    },
    SegmentedControl: {
      defaultProps: { size: 'md' },
      styles: { label: { minHeight: 44, display: 'grid', placeItems: 'center' } },
    },
    ActionIcon: { defaultProps: { size: 44, variant: 'subtle' } },
    TextInput: { defaultProps: { size: 'md' } },
    PasswordInput: {
      defaultProps: { size: 'md', rightSectionWidth: 48 },
      styles: { visibilityToggle: { width: 44, height: 44, minWidth: 44, minHeight: 44 } },
    },
    NumberInput: { defaultProps: { size: 'md' } },
    NativeSelect: { defaultProps: { size: 'md' } },
    Textarea: { defaultProps: { size: 'md' } },
    Checkbox: { defaultProps: { size: 'md' } },
  },
});
