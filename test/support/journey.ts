import type { Hands } from './hands';

const password = 'seven slow bees hum along';

/**
 * The whole job, from an empty installation to what the club has learned: a club is founded, a second member comes by invitation; a run is
 * planned, booked, done step by step and looked at until it has set; seed is put by, lent, held and traced; setting times are compared; a
 * script gets its token. The hands say how the page is worked.
 */
export async function theJourney(
  url: string,
  mira: Hands,
  joss: Hands,
): Promise<{ token: string }> {
  await mira.page.goto(url);
  await mira.press('I have none yet');
  await mira.fill({ 'Your name': 'Mira', 'E-mail': 'mira@example.org', Password: password });
  await mira.press('Open an account');
  await mira.fill({ 'Name of the club': 'Brummelwick Honey House' });
  await mira.choose('Time zone of the room', 'Europe/Vienna');
  await mira.press('Found a club');
  await isOn(mira, 'Today');

  await setUpTheRoom(mira);
  await mira.follow('Members');
  await mira.press('Invite somebody');
  const invitation = await mira.page.locator('code').first().innerText();
  await mira.page.getByAltText('The link as a QR code').waitFor();
  await joss.page.goto(invitation);
  await joss.fill({ 'Your name': 'Joss', 'E-mail': 'joss@example.org', Password: password });
  await joss.press('Open an account');
  await joss.page.getByText('Brummelwick Honey House').first().waitFor();

  await bringIn(mira, 'Honey', 'Lime, July, pail 3', '25');
  await bringIn(mira, 'Seed', 'Fine seed, bought', '6');
  await planAndBook(mira);
  await creamIt(mira);
  await lookUntilSet(mira);
  await lend(mira);
  await joss.page.goto(url);
  await joss.page.getByText('lent you seed').first().waitFor();
  await holdAndTrace(mira);
  await joss.follow('Seed');
  await joss.page.getByRole('link', { name: /⚠/ }).first().waitFor();

  await mira.follow('Setting');
  await isOn(mira, 'Setting times');
  await mira.page
    .getByText(/1 of 1 batch/)
    .first()
    .waitFor();
  await mira.choose('Compare by', 'Season');
  await mira.page.getByRole('cell').first().waitFor();
  return { token: await aToken(mira) };
}

async function isOn({ page }: Hands, title: string): Promise<void> {
  await page.getByRole('heading', { level: 1, name: title }).waitFor();
}

async function setUpTheRoom(hands: Hands): Promise<void> {
  await hands.follow('Club');
  await hands.follow('Floral sources');
  await hands.fill({ 'What the bees worked': 'Lime' });
  await hands.press('Add it');
  await hands.page.getByText('Lime', { exact: true }).waitFor();
  await hands.follow('Stations');
  for (const [name, duty] of [
    ['Warming cabinet', null],
    ['Mixing bench', 'Bench'],
    ['Cool room', 'Cooling'],
  ] as const) {
    await hands.fill({ Name: name });
    if (duty !== null) {
      await hands.tick(duty);
      await hands.tick(duty === 'Bench' ? 'Warming' : 'Bench');
    }
    await hands.press('Add it');
    await hands.page.getByRole('heading', { name }).waitFor();
  }
}

async function bringIn(hands: Hands, kind: string, name: string, massKg: string): Promise<void> {
  await hands.follow('Seed');
  await hands.follow('Bring something in');
  await hands.press(kind);
  await hands.fill({
    Name: name,
    'Mass, kg': massKg,
    'Country of origin': 'AT',
    'Where from': 'Apiary by the mill',
    'Refractive index': '1.4925',
  });
  await hands.press('Bring something in');
  await isOn(hands, name);
}

async function planAndBook(hands: Hands): Promise<void> {
  await hands.follow('Room');
  await hands.follow('Plan a run');
  await hands.fill({ 'Name of the batch': 'Lime creamed' });
  await hands.tick('Lime, July, pail 3');
  await hands.press('Find ways through the room');
  await hands.press('Book this one');
  await isOn(hands, 'Lime creamed');
}

async function creamIt(hands: Hands): Promise<void> {
  for (const step of ['Load the cabinet', 'Take out: it is clear', 'Cool enough for seed']) {
    await hands.press(step);
    await hands.press(step);
    await hands.page
      .getByRole('button', { name: step, exact: true })
      .waitFor({ state: 'detached' });
  }
  await hands.press('Stir in the seed');
  await hands.tick('Fine seed, bought');
  await hands.press('Stir in the seed');
  await hands.page.getByText('Seeded', { exact: true }).first().waitFor();
  await hands.press('Pot it');
  await hands.fill({ 'How many': '40', 'Put by as seed': '3' });
  await hands.press('Pot it');
  await hands.page.getByText('40 pots of 500 g').waitFor();
}

async function lookUntilSet(hands: Hands): Promise<void> {
  for (const state of ['Thickening', 'Set']) {
    await hands.press('Look: has it set?');
    await hands.press(state);
    await hands.press('Smooth');
    await hands.press('File it');
    await hands.page.getByText(state, { exact: true }).first().waitFor();
  }
}

async function lend(hands: Hands): Promise<void> {
  await hands.follow('Seed');
  await hands.follow(/Seed of Lime creamed/);
  await hands.page.getByText('10/11').or(hands.page.getByText(/90\.9/)).first().waitFor();
  await hands.choose('To whom', 'Joss');
  await hands.fill({ 'Mass, kg': '1' }, 'Lend some');
  await hands.press('Lend some');
  await hands.page.getByText('Lent.').waitFor();
}

async function holdAndTrace(hands: Hands): Promise<void> {
  await hands.unfold('Put a hold on it');
  await hands.fill({ 'What is wrong': 'It smells of vinegar' });
  await hands.press('Put a hold on it');
  await hands.page.getByText('On hold: not to be used').first().waitFor();
  await hands.press('Practise a trace, telling nobody');
  await hands.page.getByText(/holders, 3\skg in all/).waitFor();
}

async function aToken(hands: Hands): Promise<string> {
  await hands.follow('Club');
  await hands.follow('Tokens');
  await hands.fill({ 'What it is for': 'logger' });
  await hands.press('New token');
  return hands.page.locator('code').first().innerText();
}

/** Whose token it is, as the service answers a script. */
export async function nameBehind(url: string, token: string): Promise<string> {
  const answer = await fetch(`${url}/api/v1/session`, {
    headers: { Authorization: `Bearer ${token}` },
  });
  return ((await answer.json()) as { name: string }).name;
}
