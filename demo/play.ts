import type { ApiClient } from './api';
import { club } from './club';
import { bringIn, planBatches, tellStories } from './play-batches';
import { foundClub, signUpAsFirst } from './play-people';
import { logTemperatures } from './play-probes';
import { bookRoom, fetchAll, setUpRoom } from './play-room';
import type { Season } from './records';

// The demo's records, entered through the public REST API and nothing else: an example of how a program works with it. Everything
// that is entered gets an Idempotency-Key, here simply its ref, so that a request can be sent again when its answer was lost.

/** Stands behind the name of a club that is not all there yet. */
export const unfinished = ': being set up';

/**
 * Plays a season into an empty installation. Answers false, and changes nothing, when somebody has signed up there before.
 * While it is being played, the club's name says so.
 */
export async function play(
  service: ApiClient,
  season: Season,
  tell: (words: string) => void,
): Promise<boolean> {
  if (!(await signUpAsFirst(service))) return false;

  tell('Founding an invented club …');
  const entered = await foundClub(service, `${club.name}${unfinished}`);
  await setUpRoom(entered, season);

  tell(`Entering ${season.batches.length} batches …`);
  await bringIn(entered, season);
  await planBatches(entered, season);
  await bookRoom(entered, season);
  await tellStories(entered, season);
  await fetchAll(entered, season, new Date());
  await logTemperatures(entered, season, new Date());

  await entered.founder.patch(entered.path, { name: club.name });
  return true;
}
