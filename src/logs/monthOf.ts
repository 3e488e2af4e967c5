// January to December in English, German, French, Spanish, Italian, Dutch, Portuguese, Polish, Czech, Swedish, Danish and
// Norwegian, full and abbreviated, in small letters without accents; Polish and Czech also in the form beside a day.
const names = [
  'january jan januar janner jaenner janvier janv enero ene gennaio gen genn januari janeiro styczen stycznia sty leden ledna led',
  'february feb februar feber februari fevrier fevr fev febrero febbraio febb fevereiro luty lutego lut unor unora uno',
  'march mar marz maerz mrz mars marzo maart mrt marco marzec marca marts brezen brezna bre',
  'april apr avril avr abril abr aprile kwiecien kwietnia kwi duben dubna dub',
  'may mai mayo maggio mag magg mei maio maj maja kveten kvetna kve',
  'june jun juni juin junio giugno giu junho czerwiec czerwca cze cerven cervna cvn',
  'july jul juli juil juillet julio luglio lug julho lipiec lipca lip cervenec cervence cvc',
  'august aug aout aou agosto ago augustus augusti sierpien sierpnia sie srpen srpna srp',
  'september sep sept septembre septiembre setiembre set sett settembre setembro wrzesien wrzesnia wrz zari zar',
  'october oct oktober okt octobre octubre ottobre ott outubro out pazdziernik pazdziernika paz rijen rijna rij',
  'november nov novembre noviembre novembro listopad listopada listopadu lis',
  'december dec dezember dez decembre diciembre dic dicembre dezembro grudzien grudnia gru desember des prosinec prosince pro',
];
const known = new Map<string, number>();
for (const [index, line] of names.entries()) for (const name of line.split(' ')) known.set(name, index + 1);

/** The month (1 to 12) that a word names in one of twelve languages, in any case; `null` where it names none. */
export function monthOf(word: string): number | null {
  const plain = word
    .normalize('NFD')
    .replace(/[\u0300-\u036f.]/g, '')
    .toLowerCase();
  return known.get(plain) ?? null;
}
