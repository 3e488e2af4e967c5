import type { ColumnRole } from './types.js';

// English, German, French, Spanish, Italian, Dutch, Portuguese, Polish, Czech, Swedish, Danish, Norwegian. The order
// counts: "power factor" before "power", "Leistungsfaktor" before "Leistung". Each pattern meets the header in small
// letters without accents.
const words: readonly (readonly [role: ColumnRole, pattern: RegExp])[] = [
  [
    'powerFactor',
    /power ?factor|\bpf\b|leistungsfaktor|cos ?(phi|φ|ϕ)|fa(ct|t)(eur|or) de (puissance|potencia)|fattore di potenza|arbeidsfactor|wspolczynnik mocy|ucinik|effektfaktor/,
  ],
  [
    'ignored',
    /apparent|reactive|schein|blind|reactiv|reattiv|reaktiv|aparente|apparente|schijnbaar|pozorn|biern|zdanliv|jalov|skenbar|tilsyneladende|tilsynelatende|\bva\b|\bvar\b/,
  ],
  [
    'ignored',
    /\b(max|min|peak|spitze|maximum|minimum|maxim(al|ale|o|a)|minim(al|ale|o|a)|massim[oa]|maks\p{L}*|pic|pico|picco|piek|szczyt\p{L}*|spicka|topp)\b|set ?point|target|\bsoll|consigne|consigna|streefwaarde|zadan|borvarde|setpunkt|limit|alarm|grenz|granica/u,
  ],
  [
    'ignored',
    /^(no|nr|n|#|index|idx|sample|record|row|zeile|lfd nr|ligne|fila|riga|linha|rij|rad|lp|cislo|id|status|state|mode|stav|stan|estado|stato|etat)$/,
  ],
  [
    'ignored',
    /humid|feuchte|humedad|umidita|umidade|vochtig|wilgotn|vlhkost|\bfukt|\bfugt|luftfukt|luftfugt|frequen|frecuen|frekven|czestotliw|kmitocet|price|cost|preis|kosten|\bprix\b|precio|prezzo|\bprijs|preco|\bcena\b|\bpris\b|koszt|co2|dew ?point|taupunkt/,
  ],
  [
    'time',
    /\b(time|timestamp|datetime|elapsed|zeit|uhrzeit|zeitstempel|laufzeit|temps|heure|horodatage|duree|tiempo|hora|ora|orario|tijd|tijdstip|tempo|horario|czas|godzina|cas|hodina|tid|tidpunkt|tidsstempel|klockslag|klokkeslaet|klokkeslett|epoch|unix|clock|duration|dauer|seconds?|sekunden|secondes|segundos|secondi|seconden|sekundy|sekunder|millis|uptime|t)\b|(zeit|tid)$/,
  ],
  ['date', /\b(date|datum|fecha|data|dato)\b/],
  [
    'power',
    /power|leistung|puissance|potencia|potenza|vermogen|\bmoc\b|vykon|effekt|\bwatts?\b|\bp\d?\b|\bpwr\b/,
  ],
  [
    'energy',
    /energ|arbeit|zahler|kwh|\bwh\b|verbrauch|verbruik|forbruk|forbrug|consumption|consomm|consumo|zuzycie|spotreba|counter|meter reading|meterstand|meterstell|matarstall|malerstand|compteur|contador|contatore|medidor|licznik|elektromer|\be\b/,
  ],
  ['voltage', /volt|spannung|tension|tensao|\bu\d?\b|spanning|spenning|spaending|napieci|napeti|\bv\d?\b/],
  ['current', /current|strom|courant|corriente|corrente|stroom|\bprad|proud|\bamp|\bi\d?\b/],
  [
    'temperature',
    /temp|celsius|fahrenheit|\bt\d+\b|fuhler|teplota|thermo|\bprobe|sonde|sonda|sensor|givare|foler|czujnik|cidlo/,
  ],
];

/** The header in small letters, accents and punctuation taken out; what is very long is a sentence and is cut. */
export function plainHeader(header: string): string {
  return header
    .slice(0, 200)
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[łøæß]/g, (letter) => ({ ł: 'l', ø: 'o', æ: 'ae' })[letter] ?? 'ss')
    .replace(/[^\p{L}\p{N}#%°φϕδ]+/gu, ' ')
    .trim();
}

/** What the words of a header say about its column, or `null`; the unit has its own say. */
export function roleByWords(header: string): ColumnRole | null {
  // The symbols of the trade: t is a time, T a temperature.
  if (header.trim() === 'T') return 'temperature';
  const plain = plainHeader(header);
  return words.find(([, pattern]) => pattern.test(plain))?.[0] ?? null;
}

/** Whether any word of a header speaks for this role, even where another word comes first. */
export function mentionsRole(header: string, role: ColumnRole): boolean {
  const plain = plainHeader(header);
  return words.some(([other, pattern]) => other === role && pattern.test(plain));
}

/** Whether the header says that each value is a mean over the interval before its time stamp. */
export function saysMean(header: string): boolean {
  return /\b(avg|average|mean|mittel\w*|durchschnitt\w*|moy|moyenne|media|medio|promedio|gemiddeld\w*|sredni\w*|prumer\w*|stredni|medel\w*|gennemsnit\w*|gjennomsnitt\w*|snitt|middel\w*)\b/.test(
    plainHeader(header),
  );
}

/** Whether the header says that the time runs from a start, and not from a date. */
export function saysElapsed(header: string): boolean {
  return /elapsed|uptime|laufzeit|betriebszeit|run ?time|dauer|duration|duree|durata|duracion|duracao|millis|ticks|verstreken|ecoule|transcurrid|trascors|decorrid|uplynul|forfluten|forlobet|\btrwan/.test(
    plainHeader(header),
  );
}

/** Whether the header says that each value is that of one interval, and no reading of a clock, counter or thermometer. */
export function saysDifference(header: string): boolean {
  return /δ|\bdelta\b|\bdt\b|\bdiff|interval|przyrost/.test(plainHeader(header));
}
