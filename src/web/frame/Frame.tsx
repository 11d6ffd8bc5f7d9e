import { Alert, Anchor, Button, NativeSelect, Text } from '@mantine/core';
import type { ReactNode } from 'react';
import { Link, useLocation } from 'wouter';
import { chooseClub, useMembership, useSession } from '../api/session';
import { OutboxBar } from '../offline/OutboxBar';
import { text } from '../text';
import { useNewerPage } from './newer-page';
import { useIsOnline } from './online';
import { PlaceMark, type Place } from './PlaceMark';

const places: { href: string; words: string; mark: Place }[] = [
  { href: '/', words: text.frame.today, mark: 'today' },
  { href: '/room', words: text.frame.room, mark: 'room' },
  { href: '/batches', words: text.frame.batches, mark: 'batches' },
  { href: '/seed', words: text.frame.seed, mark: 'seed' },
  { href: '/setting-times', words: text.frame.settingTimes, mark: 'setting' },
  { href: '/calculators', words: text.frame.calculators, mark: 'calculators' },
];

/** What stands around every screen: the club, the ways to the screens, and whether the network is there. */
export function Frame({ children }: { children: ReactNode }) {
  const membership = useMembership();
  const isOnline = useIsOnline();
  const { isThere, load } = useNewerPage();
  return (
    <div className="frame">
      <a className="skip" href="#content">
        {text.frame.skip}
      </a>
      <Top />
      {membership !== null && <Places />}
      <main id="content" className="frame-main" tabIndex={-1}>
        {!isOnline && (
          <Alert color="slate" mb="md" role="status">
            {text.frame.offline}
          </Alert>
        )}
        {isThere && (
          <Alert color="slate" mb="md" role="status">
            {text.frame.newVersion} <Button onClick={load}>{text.frame.loadIt}</Button>
          </Alert>
        )}
        <OutboxBar />
        {children}
      </main>
    </div>
  );
}

function Top() {
  const { data: person } = useSession();
  const membership = useMembership();
  const clubs = person?.clubs ?? [];
  // There the name is the heading.
  const isAtTheDoor = useLocation()[0] === '/' && person == null;
  return (
    <header className="frame-top">
      <Link href="/" aria-label={text.frame.today} className="frame-mark">
        <img src="/mark.svg" alt="" width={36} height={36} />
      </Link>
      {clubs.length > 1 ? (
        <NativeSelect
          aria-label={text.frame.changeClub}
          value={membership?.clubId ?? ''}
          onChange={(event) => chooseClub(event.currentTarget.value)}
          data={clubs.map(({ clubId, clubName }) => ({ value: clubId, label: clubName }))}
          className="frame-club"
        />
      ) : (
        <Text fw={600} className="frame-club" lineClamp={2}>
          {membership?.clubName ?? (isAtTheDoor ? '' : text.frame.name)}
        </Text>
      )}
      {membership !== null && (
        <Anchor component={Link} href="/club" className="frame-way">
          <PlaceMark of="club" />
          {text.frame.club}
        </Anchor>
      )}
      {person && (
        <Anchor component={Link} href="/account" className="frame-way">
          <PlaceMark of="account" />
          {text.frame.account}
        </Anchor>
      )}
    </header>
  );
}

function Places() {
  const [address] = useLocation();
  return (
    <nav className="frame-places" aria-label={text.frame.places}>
      {places.map(({ href, words, mark }) => {
        const isHere =
          href === '/'
            ? address === '/'
            : address.startsWith(href) || (mark === 'seed' && address.startsWith('/lots'));
        return (
          <Link key={href} href={href} aria-current={isHere ? 'page' : undefined}>
            <PlaceMark of={mark} />
            {words}
          </Link>
        );
      })}
    </nav>
  );
}
