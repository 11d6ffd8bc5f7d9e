import { ApiClient } from './api';
import { club, demoPassword, emailOf, founder } from './club';
import { play, unfinished } from './play';
import { dayOf } from './records';
import { makeSeason } from './season';
import { demoSeed } from './seed';
import { startAgain } from './start-again';
import { summaryOf } from './summary';

interface SignedIn {
  clubs: { clubName: string }[];
}

/** Plays the invented club into the service at that address, if it is empty, and prints what the service makes of it. */
async function fill(url: string, dataFolder: string): Promise<void> {
  const season = makeSeason(demoSeed, dayOf(new Date()));
  const service = new ApiClient(url);
  const isPlayed = await play(service, season, (words) => {
    console.log(words);
  });
  if (!isPlayed) console.log(`Found the data in ${dataFolder}.`);

  const [steward, { clubs }] = await service.signIn<SignedIn>(emailOf(founder), demoPassword);
  const isWhole = clubs.some(({ clubName }) => !clubName.endsWith(unfinished));
  console.log(isWhole ? `\n${await summaryOf(steward)}\n` : startAgain(dataFolder));
  console.log(`${club.name} is at ${url} (its API: ${url}/api/docs).`);
  console.log(`Sign in as its steward: ${emailOf(founder)}, password: ${demoPassword}`);
  console.log('Ctrl-C stops it; its data stays for the next time.');
}

const [url = '', dataFolder = ''] = process.argv.slice(2);
fill(url, dataFolder).catch((error: unknown) => {
  console.error(error);
  process.exitCode = 1;
});
