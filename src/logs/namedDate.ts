import { monthOf } from './monthOf.js';

/** A date with a named month in plain form, such as `5 Oct 2026`, and the text behind it. */
export interface NamedDate {
  readonly date: string;
  readonly rest: string;
}

const short = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const word = String.raw`(\p{L}{3,12})\.?`;
const dayFirst = new RegExp(
  String.raw`^(\d{1,2})(?:\.|st|nd|rd|th|er|[ºª°])?[\s/-]*(?:de\s+)?${word}[\s/.,-]*(?:del?\s+)?(\d{4}|\d{2})(?!\d)(.*)$`,
  'u',
);
const monthFirst = new RegExp(
  String.raw`^${word}[\s/-]*(\d{1,2})(?:st|nd|rd|th)?[\s,/-]+(\d{4}|\d{2})(?!\d)(.*)$`,
  'u',
);
const yearFirst = new RegExp(String.raw`^(\d{4})[\s/.-]*${word}[\s/-]*(\d{1,2})(?!\d)(.*)$`, 'u');
// As C prints it: "Oct  5 10:15:00 2026".
const yearLast = new RegExp(
  String.raw`^${word}\s+(\d{1,2})\s+(\d{1,2}:\d{2}:\d{2}(?:\.\d+)?)\s+(\d{4})$`,
  'u',
);
const weekdays = new Set(
  (
    'mon monday tue tues tuesday wed wednesday thu thur thurs thursday fri friday sat saturday sun sunday ' +
    'mo montag di dienstag mi mittwoch do donnerstag fr freitag sa samstag sonnabend so sonntag ' +
    'lun lundi mar mardi mer mercredi jeu jeudi ven vendredi sam samedi dim dimanche ' +
    'lunes martes mie miercoles jue jueves vie viernes sab sabado dom domingo ' +
    'lunedi martedi mercoledi gio giovedi venerdi sabato domenica ' +
    'ma maandag dinsdag wo woensdag donderdag vr vrijdag za zaterdag zo zondag'
  ).split(' '),
);

/** Reads the date with a named month that a text begins with; a weekday before it is passed over. */
export function namedDate(text: string): NamedDate | null {
  const found = dateAt(text);
  if (found) return found;
  const first = /^(\p{L}{2,12})\.?,?\s+(.+)$/u.exec(text);
  if (!first) return null;
  const plain = first[1]!
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase();
  return weekdays.has(plain) ? dateAt(first[2]!) : null;
}

function dateAt(text: string): NamedDate | null {
  const one = dayFirst.exec(text);
  if (one) return dated(one[2]!, one[3]!, one[4]!, (month, year) => `${Number(one[1])} ${month} ${year}`);
  const two = monthFirst.exec(text);
  const first =
    two && dated(two[1]!, two[3]!, two[4]!, (month, year) => `${month} ${Number(two[2])} ${year}`);
  if (first) return first;
  const three = yearFirst.exec(text);
  if (three)
    return dated(three[2]!, three[1]!, three[4]!, (month, year) => `${year} ${month} ${Number(three[3])}`);
  const four = yearLast.exec(text);
  return (
    four && dated(four[1]!, four[4]!, ` ${four[3]}`, (month, year) => `${month} ${Number(four[2])} ${year}`)
  );
}

function dated(
  name: string,
  year: string,
  rest: string,
  write: (month: string, year: number) => string,
): NamedDate | null {
  const month = monthOf(name);
  // "Oct 5 10:15:00" has no year: behind one of two digits a blank, a comma or nothing must follow.
  const cut = year.length === 4 ? /^(?:$|[\s,:Tt])/ : /^(?:$|[\s,])/;
  if (month === null || !cut.test(rest)) return null;
  const full = year.length === 2 ? 2000 + Number(year) : Number(year);
  return { date: write(short[month - 1]!, full), rest };
}
