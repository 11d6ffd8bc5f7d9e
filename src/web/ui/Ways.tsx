import { useEffect, useRef } from 'react';
import { Link } from 'wouter';

/** The ways between screens that belong together. On a phone they are one line, which moves so far that the way taken last is in sight. */
export function Ways({ label, to }: { label: string; to: Way[] }) {
  const line = useRef<HTMLElement>(null);
  const here = to.find(({ isHere }) => isHere)?.href;
  useEffect(() => {
    const current = line.current?.querySelector<HTMLElement>('[aria-current]');
    if (line.current === null || !current) return;
    line.current.scrollLeft =
      current.offsetLeft - (line.current.clientWidth - current.offsetWidth) / 2;
  }, [here]);
  return (
    <nav className="ways no-print" aria-label={label} ref={line}>
      {to.map(({ href, words, isHere }) => (
        <Link key={href} href={href} aria-current={isHere ? 'page' : undefined}>
          {words}
        </Link>
      ))}
    </nav>
  );
}

export interface Way {
  href: string;
  words: string;
  isHere: boolean;
}
