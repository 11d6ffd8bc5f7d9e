import { Link } from 'wouter';
import { text } from '../../text';

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
    <nav className="ways no-print" aria-label={text.seed.ways}>
      {(Object.entries(text.seed.parts) as [Part, string][]).map(([part, words]) => (
        <Link key={part} href={addresses[part]} aria-current={part === here ? 'page' : undefined}>
          {words}
        </Link>
      ))}
    </nav>
  );
}
