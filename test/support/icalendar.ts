// Reads an iCalendar object by the grammar of RFC 5545 and refuses whatever departs from it: 3.1 (content lines), 3.3 (values), 3.4 and 3.6
// (what stands in what), 3.6.1 (events). Only what a diary needs is known; what is not known is refused.

export interface CalendarEvent {
  uid: string;
  start: string;
  end: string;
  stamp: string;
  lastModified: string;
  sequence: number;
  status: string | undefined;
  transparency: string | undefined;
  summary: string;
  location: string | undefined;
  description: string | undefined;
}

interface Line {
  name: string;
  parameters: Record<string, string>;
  value: string;
}

export function readCalendar(text: string): { name: string | undefined; events: CalendarEvent[] } {
  const lines = unfold(text).map(parseLine);
  const take = (name: string, value: string) => {
    const line = lines.shift();
    if (line?.name !== name || line.value !== value) fail(`${name}:${value} expected`, line);
  };
  take('BEGIN', 'VCALENDAR');
  const own: Line[] = [];
  const events: CalendarEvent[] = [];
  const zone: Line[] = [];
  let components = 0;
  while (lines[0]?.name !== 'END') {
    const line = lines.shift();
    if (line === undefined) return fail('The calendar does not end');
    if (line.name !== 'BEGIN') {
      // 3.6: calendar properties come before the components.
      if (components > 0) fail('A calendar property after an event', line);
      own.push(line);
      continue;
    }
    components++;
    if (line.value === 'VTIMEZONE') {
      while (lines[0] !== undefined && lines[0].value !== 'VTIMEZONE') zone.push(lines.shift()!);
      take('END', 'VTIMEZONE');
      continue;
    }
    if (line.value !== 'VEVENT') fail('An unknown component', line);
    const of: Line[] = [];
    while (lines[0] !== undefined && lines[0].name !== 'END') of.push(lines.shift()!);
    take('END', 'VEVENT');
    events.push(eventOf(of));
  }
  take('END', 'VCALENDAR');
  if (lines.length > 0) fail('Something after the end', lines[0]);
  if (components === 0) fail('3.6: a calendar holds one component at least');
  // 3.6.5: a time zone has a TZID and a STANDARD with these three.
  const parts = ['TZID', 'BEGIN', 'DTSTART', 'TZOFFSETFROM', 'TZOFFSETTO', 'END'];
  if (zone.length > 0 && zone.map((line) => line.name).join() !== parts.join()) {
    fail('An incomplete time zone');
  }

  onlyOnce(
    own,
    ['PRODID', 'VERSION'],
    ['CALSCALE', 'NAME', 'X-WR-CALNAME', 'REFRESH-INTERVAL', 'X-PUBLISHED-TTL'],
  );
  if (valueOf(own, 'VERSION') !== '2.0') fail('VERSION must be 2.0');
  for (const { name, value, parameters } of own) {
    if (name === 'REFRESH-INTERVAL') {
      if (parameters['VALUE'] !== 'DURATION') fail('RFC 7986, 5.7: VALUE=DURATION is needed');
      if (!/^P(T(\d+H)?(\d+M)?(\d+S)?|\d+[WD])$/.test(value)) fail(`No duration: ${value}`);
    }
  }
  const uids = events.map(({ uid }) => uid);
  if (new Set(uids).size !== uids.length) fail('A UID stands twice');
  const name = valueOf(own, 'NAME');
  return { name: name === undefined ? undefined : textOf(name), events };
}

/** 3.1: lines end with CRLF, have 75 octets at most, and go on where the next one begins with a blank or a tab. */
function unfold(text: string): string[] {
  if (!text.endsWith('\r\n')) fail('The last line does not end with CRLF');
  const raw = text.slice(0, -2).split('\r\n');
  for (const line of raw) {
    if (/[\r\n]/.test(line)) fail(`A bare line break in ${JSON.stringify(line)}`);
    if (Buffer.byteLength(line) > 75) fail(`More than 75 octets: ${line}`);
    if (/[\u0000-\u0008\u000a-\u001f\u007f]/.test(line))
      fail(`A control character in ${JSON.stringify(line)}`);
    if (line === '') fail('An empty line');
  }
  const whole: string[] = [];
  for (const line of raw) {
    if (/^[ \t]/.test(line)) {
      if (whole.length === 0) fail('The first line is folded');
      whole.push(`${whole.pop() ?? ''}${line.slice(1)}`);
    } else whole.push(line);
  }
  for (const line of whole) if (!line.isWellFormed()) fail('A character was cut in two');
  return whole;
}

/** 3.1: contentline = name *(";" param ) ":" value. Parameters here are single and unquoted. */
function parseLine(line: string): Line {
  const match = /^([A-Z0-9-]+)((?:;[A-Z0-9-]+=[^\u0000-\u001f";:,]+)*):(.*)$/.exec(line);
  if (match === null) return fail(`No content line: ${line}`);
  const [, name = '', parameters = '', value = ''] = match;
  const pairs = parameters
    .split(';')
    .slice(1)
    .map((pair) => pair.split('=') as [string, string]);
  if (new Set(pairs.map(([key]) => key)).size !== pairs.length) fail('A parameter stands twice');
  return { name, parameters: Object.fromEntries(pairs), value };
}

function eventOf(lines: Line[]): CalendarEvent {
  onlyOnce(
    lines,
    ['UID', 'DTSTAMP', 'DTSTART'],
    [
      'DTEND',
      'SEQUENCE',
      'STATUS',
      'TRANSP',
      'SUMMARY',
      'LOCATION',
      'DESCRIPTION',
      'LAST-MODIFIED',
      'X-MICROSOFT-CDO-ALLDAYEVENT',
      'X-MICROSOFT-MSNCALENDAR-ALLDAYEVENT',
    ],
  );
  const get = (name: string) => valueOf(lines, name);
  const time = (name: string): string => {
    const line = lines.find((one) => one.name === name);
    if (line === undefined) return fail(`${name} is missing`);
    if (line.parameters['VALUE'] === 'DATE') return dateOf(line.value);
    if (Object.keys(line.parameters).length > 0) fail('An unknown parameter', line);
    return dateTimeOf(line.value);
  };
  const start = time('DTSTART');
  const end = time('DTEND');
  if (start.length !== end.length) fail('3.8.2.2: DTEND must be of the type of DTSTART');
  if (end <= start) fail(`3.8.2.2: it must end after it starts, ${start}`);
  for (const name of ['DTSTAMP', 'LAST-MODIFIED']) dateTimeOf(get(name) ?? '');
  const sequence = get('SEQUENCE') ?? '0';
  if (!/^\d+$/.test(sequence)) fail(`SEQUENCE:${sequence}`);
  const status = get('STATUS');
  if (!['CONFIRMED', 'TENTATIVE', 'CANCELLED', undefined].includes(status))
    fail(`STATUS:${status!}`);
  const transparency = get('TRANSP');
  if (!['OPAQUE', 'TRANSPARENT', undefined].includes(transparency)) fail(`TRANSP:${transparency!}`);
  const text = (name: string) => {
    const value = get(name);
    return value === undefined ? undefined : textOf(value);
  };
  return {
    uid: textOf(get('UID') ?? ''),
    start,
    end,
    stamp: dateTimeOf(get('DTSTAMP') ?? ''),
    lastModified: dateTimeOf(get('LAST-MODIFIED') ?? ''),
    sequence: Number(sequence),
    status,
    transparency,
    summary: text('SUMMARY') ?? '',
    location: text('LOCATION'),
    description: text('DESCRIPTION'),
  };
}

function onlyOnce(lines: Line[], needed: string[], allowed: string[]): void {
  for (const name of needed)
    if (!lines.some((line) => line.name === name)) fail(`${name} is missing`);
  lines.forEach((line, index) => {
    if (![...needed, ...allowed].includes(line.name)) fail('An unknown property', line);
    if (lines.findIndex(({ name }) => name === line.name) !== index) fail('It stands twice', line);
  });
}

/** 3.3.11: backslash, semicolon and comma are escaped, line breaks are \n. */
function textOf(value: string): string {
  if (!/^(?:[^\\;,]|\\[\\;,nN])*$/.test(value)) fail(`Not escaped as TEXT: ${value}`);
  return value.replace(/\\(.)/g, (_, escaped: string) => (/n/i.test(escaped) ? '\n' : escaped));
}

/** 3.3.5, form 2: UTC. */
function dateTimeOf(value: string): string {
  const match = /^(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)Z$/.exec(value);
  const iso =
    match && `${match[1]!}-${match[2]!}-${match[3]!}T${match[4]!}:${match[5]!}:${match[6]!}.000Z`;
  if (iso === null || Number.isNaN(Date.parse(iso)) || new Date(iso).toISOString() !== iso) {
    return fail(`No time in UTC: ${value}`);
  }
  return iso;
}

function dateOf(value: string): string {
  const match = /^(\d{4})(\d\d)(\d\d)$/.exec(value);
  const day = match && `${match[1]!}-${match[2]!}-${match[3]!}`;
  if (day === null || Number.isNaN(Date.parse(day))) return fail(`No date: ${value}`);
  return day;
}

function valueOf(lines: Line[], name: string): string | undefined {
  return lines.find((line) => line.name === name)?.value;
}

function fail(words: string, line?: Line): never {
  throw new Error(
    `Not RFC 5545: ${words}${line === undefined ? '' : ` (${line.name}:${line.value})`}`,
  );
}
