import { writtenLotCode } from '../../src/core/marks/lot-code';
import { qrModules } from '../../src/labels/qr-modules';
import { settingsToken, type Settings } from '../../src/platform/settings';
import { aLot, aSeededBatch, aSource, minutesAgo } from '../support/lots';
import { testWith, wordsOf } from '../support/paper';
import { useService } from '../support/service';
import { aSuspectLine } from '../support/suspect-line';
import { aClub, type Actor, type ClubWorld } from '../support/world';

const service = useService({ PUBLIC_URL: 'https://honey.example.org/' });
const settings = '/label-settings';

async function aPottedBatch(pots = [{ netMassKg: 0.5, count: 10 }]) {
  const club: ClubWorld = await aClub(service);
  const lime = await aSource(service, club.clubId, 'Lime');
  const batch = await aSeededBatch(club.ada, club, lime, minutesAgo(90));
  await club.ada
    .post(`${batch.path}/steps`, { kind: 'potted', at: minutesAgo(60), pots })
    .expect(201);
  const { body } = await club.ada.get(`${club.path}/lots?kind=creamed`);
  const lot = body.items[0] as { id: string; code: string };
  return { ...club, lot, label: `${club.path}/lots/${lot.id}/label.pdf` };
}

async function pdfAt(actor: Actor, address: string): Promise<Buffer> {
  const answer = await actor
    .get(address)
    .expect(200)
    .buffer(true)
    .parse((response, done) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.on('end', () => done(null, Buffer.concat(chunks)));
    });
  expect(answer.headers['content-type']).toBe('application/pdf');
  return answer.body as Buffer;
}

const testWords = testWith('pdftotext');

testWords(
  'a pot’s label tells what is in it, as often as was asked for (needs pdftotext)',
  async () => {
    const { steward, ada, path: club, lot, label } = await aPottedBatch();
    await steward.change(`${club}${settings}`, {
      producer: 'Mühle & Söhne\nΜέλι 3',
      bestBeforeMonths: 24,
      words: { infants: 'Nicht für Säuglinge.' },
      language: 'de',
    });

    const pages = wordsOf(await pdfAt(ada, `${label}?for=pot&count=20&start=5`));

    expect(pages).toHaveLength(2);
    const [first, second] = pages as [string, string];
    expect(first.match(/Creamed honey/g)).toHaveLength(17);
    expect(second.match(/Creamed honey/g)).toHaveLength(3);
    for (const words of [
      'Lime',
      '500 g',
      `L ${writtenLotCode(lot.code)}`,
      'Mühle & Söhne',
      'Μέλι 3',
    ]) {
      expect(second).toContain(words);
    }
    expect(second).toContain('Origin: Österreich 100 %');
    expect(second).toContain('Nicht für Säuglinge.');
    expect(second).toMatch(/Best before: 20\d\d-\d\d-\d\d/);
    expect(second).not.toContain('℮');
  },
);

testWords('the e-mark is printed once the club has set it (needs pdftotext)', async () => {
  const { steward, ada, path: club, label } = await aPottedBatch();
  await steward.change(`${club}${settings}`, { eMark: true });
  const [page] = wordsOf(await pdfAt(ada, `${label}?for=pot&sheet=100x70&count=1`));
  expect(page).toContain('500 g ℮');
});

testWords('a pail’s label tells which lot, whose and how much (needs pdftotext)', async () => {
  const { ada, path: club, lot, clubId } = await aPottedBatch();
  const source = await aSource(service, clubId, 'Rape');
  const honey = await aLot(ada, { path: club }, source, { massKg: 12.5 });
  const { body } = await ada.get(`${club}/lots/${honey}`);
  const [page] = wordsOf(await pdfAt(ada, `${club}/lots/${honey}/label.pdf?for=pail&count=1`));
  for (const words of [body.name, '12.5 kg', 'Rape', body.holder.name, writtenLotCode(body.code)]) {
    expect(page).toContain(words);
  }
  expect(page).not.toContain(writtenLotCode(lot.code));
});

/** Where the QR codes of a PDF lead when they are clicked instead of photographed. */
function addressesIn(pdf: Buffer): string[] {
  return [...pdf.toString('latin1').matchAll(/\/URI \(([^)]*)\)/g)].map(([, address]) => address!);
}

test('every QR code leads to the lot’s page at the public address', async () => {
  const { ada, lot, label } = await aPottedBatch();
  const addresses = addressesIn(await pdfAt(ada, `${label}?for=pot`));
  expect(addresses).toEqual(Array<string>(21).fill(`https://honey.example.org/lots/${lot.code}`));
});

test('without a public address it leads to where the service was reached', async () => {
  const { lot, ada, label } = await aPottedBatch();
  const settingsNow = service.app.get<Settings>(settingsToken);
  settingsNow.publicUrl = null;
  const addresses = addressesIn(await pdfAt(ada, `${label}?for=pot&count=1`));
  settingsNow.publicUrl = 'https://honey.example.org';
  expect(addresses).toEqual([`${service.url}/lots/${lot.code}`]);
});

test('a QR code has light all around, and its three corners where readers look for them', () => {
  const modules = qrModules('https://honey.example.org/lots/K7MR486');
  const size = modules.length;
  const corner = (top: number, left: number) =>
    Array.from({ length: 7 }, (_, row) =>
      modules[top + row]!.slice(left, left + 7)
        .map((isDark) => (isDark ? '#' : '.'))
        .join(''),
    );
  // ISO/IEC 18004, 6.3.3: the finder pattern.
  const finder = ['#######', '#.....#', '#.###.#', '#.###.#', '#.###.#', '#.....#', '#######'];
  for (const [top, left] of [
    [4, 4],
    [4, size - 11],
    [size - 11, 4],
  ] as const) {
    expect(corner(top, left)).toEqual(finder);
  }
  const border = modules.flatMap((line, row) =>
    line.filter((_, column) => Math.min(row, column, size - 1 - row, size - 1 - column) < 4),
  );
  expect(border).not.toContain(true);
});

test('the same labels printed again are the same file', async () => {
  const { ada, label } = await aPottedBatch();
  const first = await pdfAt(ada, `${label}?for=pot`);
  expect((await pdfAt(ada, `${label}?for=pot`)).equals(first)).toBe(true);
  expect(first.subarray(0, 5).toString()).toBe('%PDF-');
});

test.each([
  ['for', '', /for/],
  ['for', '?for=bucket', /pail, tub, pot/],
  ['sheet', '?for=pot&sheet=a4-9x9', /a4-3x7/],
  ['start', '?for=pot&sheet=a4-2x4&start=9', /8 labels/],
  ['count', '?for=pot&count=501', /500/],
  ['sheet', '?for=pot&sheet=letter-3x10', /choose larger labels/],
])('a wrong %s is named, with what would work', async (parameter, query, words) => {
  const { steward, ada, path: club, label } = await aPottedBatch();
  await steward.change(`${club}${settings}`, { producer: 'A\nB\nC\nD' });
  const { body } = await ada.get(`${label}${query}`).expect(422);
  expect(body.errors).toMatchObject([{ parameter }]);
  expect(body.detail).toMatch(words);
});

test('of several sizes of pots the label asks for one', async () => {
  const { ada, label } = await aPottedBatch([
    { netMassKg: 0.5, count: 10 },
    { netMassKg: 0.25, count: 10 },
  ]);
  const { body } = await ada.get(`${label}?for=pot`).expect(422);
  expect(body).toMatchObject({
    errors: [{ parameter: 'netMassKg' }],
    detail: 'The batch was filled into pots of 0.5 kg, 0.25 kg: say which.',
  });
  await pdfAt(ada, `${label}?for=pot&netMassKg=0.25`);
});

test('of a lot on hold tubs and pots get no labels, until the hold is released', async () => {
  const { club, seedId, creamedId, nextSeedId } = await aSuspectLine(service);
  const { ada, ben, path: base } = club;
  const placed = { reason: 'Smells of vinegar' };
  const { body: hold } = await ben.post(`${base}/lots/${seedId}/holds`, placed).expect(201);

  for (const asked of [`${creamedId}/label.pdf?for=pot`, `${nextSeedId}/label.pdf?for=tub`]) {
    const { body } = await ada.get(`${base}/lots/${asked}`).expect(409);
    expect(body).toMatchObject({
      type: '/problems/on-hold',
      detail: expect.stringMatching(/is on hold: it was made of .*Smells of vinegar/),
      holds: [{ holdId: hold.id, heldLotId: seedId }],
    });
    expect(body.wouldFree).toHaveLength(2);
  }
  await ada.get(`${base}/lots/${seedId}/label.pdf?for=tub`).expect(409);

  const release = { because: 'It was the bucket', evidence: 'Tasted by three' };
  await ben.post(`${base}/holds/${String(hold.id)}/release`, release).expect(200);
  await pdfAt(ada, `${base}/lots/${creamedId}/label.pdf?for=pot`);
  await pdfAt(ada, `${base}/lots/${nextSeedId}/label.pdf?for=tub`);
});

testWords(
  'a pail that is put aside can be marked: its label says so (needs pdftotext)',
  async () => {
    const { club, seedId, nextSeedId } = await aSuspectLine(service);
    const { ada, steward, path: base } = club;
    const label = `${base}/lots/${nextSeedId}/label.pdf?for=pail&count=1`;
    const [before] = wordsOf(await pdfAt(ada, label));
    await ada.post(`${base}/lots/${seedId}/holds`, { reason: 'Smells of vinegar' }).expect(201);
    const [held] = wordsOf(await pdfAt(ada, label));
    await steward.change(`${base}${settings}`, { words: { onHold: 'Gesperrt' } });
    const [inOwnWords] = wordsOf(await pdfAt(ada, label));

    expect(before).not.toContain('On hold');
    expect(held).toMatch(/On hold, do not use:\s+Seed honey/);
    expect(inOwnWords).toMatch(/Gesperrt:\s+Seed honey/);
  },
);

describe('label settings', () => {
  test('begin with what is safe, and are the steward’s to change', async () => {
    const { steward, ada, path: club, clubId } = await aClub(service);
    const { body } = await ada.get(`${club}${settings}`).expect(200);
    expect(body).toMatchObject({
      clubId,
      producer: '',
      singleSourcePercent: 45,
      origins: 'withPercentages',
      bestBeforeMonths: null,
      eMark: false,
      quantityHeightMm: 4,
      language: 'en',
      words: { infants: 'Not for infants under 12 months.' },
    });
    const { headers } = await ada.get(`${club}${settings}`);
    await ada
      .patch(`${club}${settings}`, { eMark: true })
      .set('If-Match', headers['etag']!)
      .expect(403);

    const change = { singleSourcePercent: 60.5, quantityHeightMm: 6, words: { honey: 'Honig' } };
    const changed = await steward.change(`${club}${settings}`, change);
    const again = await steward.change(`${club}${settings}`, {
      bestBeforeMonths: 18,
      words: { seed: 'Impfhonig' },
    });

    expect(changed.status).toBe(200);
    expect(again.body).toMatchObject({
      ...change,
      bestBeforeMonths: 18,
      words: { honey: 'Honig', seed: 'Impfhonig', creamedHoney: 'Creamed honey' },
    });
    expect((await ada.get(`${club}${settings}`)).body).toEqual(again.body);
    const { body: none } = await steward.change(`${club}${settings}`, { bestBeforeMonths: null });
    expect(none.bestBeforeMonths).toBeNull();
  });

  test.each([
    [{ quantityHeightMm: 3.9 }, /at least 4/],
    [{ language: 'xx-1234567890' }, /language|look like/],
    [{ bestBeforeMonths: 0 }, /at least 1/],
    [{ origins: 'none' }, /withPercentages, namesOnly/],
    [{ words: { infants: ' ' } }, /not blank/],
    [{ words: { slogan: 'Best' } }, /not a known field/],
  ])('%j is refused', async (change, words) => {
    const { steward, path: club } = await aClub(service);
    const answer = await steward.change(`${club}${settings}`, change);
    expect([answer.status, answer.body.detail]).toEqual([422, expect.stringMatching(words)]);
  });
});
