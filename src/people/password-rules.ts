const shortestPassword = 8;
const wordsOfThePlace = ['creamingroom', 'creaming', 'creamed', 'honey', 'beekeeper', 'beehive'];

/**
 * What is wrong with a new password, in words; null: nothing. Refused are the passwords that guessing starts with, and those that
 * consist of the person's own words or the room's but for fewer than eight characters. No rules of composition: they make passwords
 * worse (OWASP ASVS 5.0, 6.2.4 to 6.2.11). `common` is in lower case.
 */
export function passwordFault(
  password: string,
  person: { name: string; email: string },
  common: ReadonlySet<string>,
): string | null {
  const folded = password.normalize('NFKC').toLowerCase();
  if (common.has(folded) || common.has(password.toLowerCase())) {
    return 'is one of the passwords that are guessed first; take several words that do not belong together.';
  }
  const words = [...wordsOfThePlace, ...wordsOf(person.name), ...wordsOf(person.email)];
  const isWithinOne = words.some((word) => word.includes(folded));
  // Separators between own words are no secret either.
  const joined = folded.replace(/[\s._-]/g, '');
  const rest = words.reduce((left, word) => left.replaceAll(word, ''), joined);
  const isMadeOfThem = rest !== joined && Array.from(rest).length < shortestPassword;
  if (isWithinOne || isMadeOfThem) {
    return 'is made of your name, your e-mail or words of the room; take several words that do not belong together.';
  }
  return null;
}

/** The words of a name or an address, one by one and joined, longest first: what is short turns up by accident. */
function wordsOf(text: string): string[] {
  const whole = text.normalize('NFKC').toLowerCase();
  const parts = whole.split(/[^\p{L}\p{N}]+/u);
  const local = (whole.split('@')[0] ?? '').replace(/[^\p{L}\p{N}]+/gu, '');
  return [whole, local, parts.join(''), ...parts]
    .filter((word) => word.length >= 3)
    .sort((a, b) => b.length - a.length);
}
