import { text } from '../../text';
import { Ways } from '../../ui/Ways';

type Part = keyof typeof text.seed.parts;

const addresses: Record<Part, string> = {
  shelf: '/seed',
  fits: '/seed/fits',
  loans: '/seed/loans',
  holds: '/seed/holds',
};

/** The ways between the screens about seed. */
export function SeedWays({ here }: { here: Part }) {
  return (
    <Ways
      label={text.seed.ways}
      to={(Object.entries(text.seed.parts) as [Part, string][]).map(([part, words]) => ({
        href: addresses[part],
        words,
        isHere: part === here,
      }))}
    />
  );
}
