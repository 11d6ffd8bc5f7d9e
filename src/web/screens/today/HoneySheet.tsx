import { Button, Text } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'wouter';
import { text } from '../../text';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { StageMark } from '../batches/StageMark';
import type { Honey, Whose } from './today-queries';

const words = text.today;
const shownAtFirst = 6;

/** What stands in the room, how far it is, and when it has probably set. */
export function HoneySheet({ honey, whose }: { honey: Honey[]; whose: Whose }) {
  const times = useTimes();
  const [isAll, setAll] = useState(false);
  return (
    <Sheet title={whose === 'mine' ? words.honey : words.allHoney}>
      {honey.length === 0 && <Text className="soft">{words.noHoney}</Text>}
      <ul className="rows">
        {(isAll ? honey : honey.slice(0, shownAtFirst)).map(
          ({ batch, member, stage, places, expectedSetAt, almostSurelySetAt }) => (
            <li key={batch.id}>
              <Link href={`/batches/${batch.id}`} className="row">
                <span>
                  <strong>{batch.name}</strong>
                  <span className="soft">
                    {[
                      ...(whose === 'all' ? [member.name] : []),
                      ...places.map(({ stationName, places: numbers, until }) =>
                        words.standsAt(
                          stationName,
                          (numbers.length === 1 ? words.place : words.places)(numbers.join(', ')),
                          times.day(until),
                        ),
                      ),
                    ].join(' · ')}
                  </span>
                </span>
                <span className="row-end">
                  <StageMark stage={stage} />
                  {expectedSetAt !== null && (
                    <span className="soft">
                      {isPast(expectedSetAt)
                        ? words.wasExpected(times.day(expectedSetAt))
                        : words.expected(times.day(expectedSetAt))}
                      {almostSurelySetAt !== null && !isPast(almostSurelySetAt) && (
                        <>
                          <br />
                          {words.surely(times.day(almostSurelySetAt))}
                        </>
                      )}
                    </span>
                  )}
                </span>
              </Link>
            </li>
          ),
        )}
      </ul>
      {!isAll && honey.length > shownAtFirst && (
        <Button variant="subtle" onClick={() => setAll(true)}>
          {text.frame.more}
        </Button>
      )}
    </Sheet>
  );
}

function isPast(at: string): boolean {
  return Date.parse(at) < Date.now();
}
