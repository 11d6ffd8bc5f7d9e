import { anAccount, type Account } from '../support/account';
import { describeInBrowser, signIn, useBrowser, type Visitor } from '../support/page';
import { aCabinet, aWish } from '../support/room';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

// A steward changes a station after it was set up, and is told what bookings ahead still need.

const service = useService();
const browser = useBrowser();

let club: ClubWorld;
let cabinet: string;
let visitor: Visitor;

beforeEach(async () => {
  club = await aClub(service);
  cabinet = await aCabinet(club, 4);
  const account: Account = await anAccount(service);
  await service.prisma.member.create({
    data: { clubId: club.clubId, personId: account.personId, role: 'steward' },
  });
  visitor = await browser.open();
  await signIn(visitor, service, account);
});
afterEach(() => expect(visitor.faults).toEqual([]));

async function toStation(): Promise<void> {
  const address = `${service.url}/club/stations/${cabinet}`;
  await visitor.page.goto(address, { waitUntil: 'networkidle' });
}

const press = (name: string) => visitor.page.getByRole('button', { name, exact: true }).click();
const typePlaces = (count: number) =>
  visitor.page.getByRole('textbox', { name: 'Places' }).fill(String(count));
const see = (words: string | RegExp) => visitor.page.getByText(words).first().waitFor();

async function books(places: number): Promise<string> {
  const { body } = await club.ben
    .post(`${club.path}/bookings`, aWish(cabinet, { places }))
    .expect(201);
  return `${club.path}/bookings/${body.id}`;
}

const station = async () =>
  (await club.ada.get(`${club.path}/stations/${cabinet}`).expect(200)).body as {
    places: number;
    duties: { duty: string; minC: number; maxC: number }[];
  };

describeInBrowser('a station that was set up', () => {
  test('gets fewer places: who is on them is told, and gets others with one tap', async () => {
    const first = await books(3);
    const second = await books(1);
    await club.ben.change(first, { places: 1 });
    await toStation();

    await press('Change the station');
    await typePlaces(1);
    await press('Save');
    await see('Bookings, or honey that stands there, still need it.');
    await see('Bookings in the way');
    await typePlaces(2);
    await press('Save');
    await see(/would get place 2$/);
    await press('Give them other places');

    await see('Changed.');
    await see('2 places of 30 kg');
    expect((await station()).places).toBe(2);
    expect((await club.ben.get(second)).body.places).toEqual([2]);
  });

  test('keeps the duty that is booked, and takes another beside it', async () => {
    await books(1);
    await toStation();

    await press('Change the station');
    await visitor.page.getByRole('checkbox', { name: 'Warming' }).uncheck();
    await visitor.page.getByRole('checkbox', { name: 'Bench' }).check();
    await press('Save');
    await see(/1 booking needs the duty "warm" of Cabinet/);
    await press('Save it with what they need');

    await see('Changed.');
    await see('Bench: 15 °C to 30 °C');
    expect((await station()).duties.map(({ duty }) => duty)).toEqual(['warm', 'cool', 'bench']);
  });

  test('goes out of use when nobody needs it, and comes back', async () => {
    const booking = await books(1);
    await toStation();

    await press('Take it out of use');
    await press('Yes, take it out of use');
    await see(/1 booking needs Cabinet/);
    await club.ben.remove(booking);
    await press('Take it out of use');
    await press('Yes, take it out of use');

    await visitor.page.getByRole('heading', { name: 'Out of use' }).waitFor();
    expect((await club.ada.get(`${club.path}/stations`)).body.items).toEqual([]);
    await press('Cabinet: take into use again');
    await visitor.page.getByRole('heading', { name: 'Cabinet' }).waitFor();
    expect((await club.ada.get(`${club.path}/stations`)).body.items).toHaveLength(1);
  });
});
