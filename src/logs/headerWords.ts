import type { ColumnRole } from './types.js';

// English, German, French, Spanish, Italian, Dutch. The order counts: "power factor" before "power",
// "Leistungsfaktor" before "Leistung". Each pattern meets the header in small letters without accents.
const words: readonly (readonly [role: ColumnRole, pattern: RegExp])[] = [
  [
    'powerFactor',
    /power ?factor|\bpf\b|leistungsfaktor|cos ?(phi|φ|ϕ)|fact(eur|or) de (puissance|potencia)|fattore di potenza|arbeidsfactor/,
  ],
  ['ignored', /apparent|reactive|schein|blind|reactiv|reattiv|aparente|apparente|\bva\b|\bvar\b/],
  [
    'ignored',
    /\b(max|min|peak|spitze|maximum|minimum|pic|pico|picco)\b|set ?point|target|\bsoll|consigne|limit|alarm|grenz/,
  ],
  ['ignored', /^(no|nr|n|#|index|idx|sample|record|row|zeile|lfd nr|ligne|id|status|state|mode)$/],
  [
    'ignored',
    /humidity|feuchte|humidite|humedad|umidita|frequen|price|cost|preis|kosten|co2|dew ?point|taupunkt/,
  ],
  [
    'time',
    /\b(time|timestamp|datetime|elapsed|zeit|uhrzeit|zeitstempel|laufzeit|temps|heure|horodatage|tiempo|hora|ora|orario|tijd|tijdstip|epoch|unix|clock|duration|dauer|seconds?|sekunden|secondes|segundos|secondi|millis|uptime|t)\b|zeit$/,
  ],
  ['date', /\b(date|datum|fecha|data|dato)\b/],
  ['power', /power|leistung|puissance|potencia|potenza|vermogen|\bwatts?\b|\bp\d?\b|\bpwr\b/],
  [
    'energy',
    /energ|arbeit|zahler|kwh|\bwh\b|verbrauch|consumption|consomm|consumo|counter|meter reading|compteur|contador|contatore|\be\b/,
  ],
  ['voltage', /volt|spannung|tension|\bu\d?\b|spanning|\bv\d?\b/],
  ['current', /current|strom|courant|corriente|corrente|stroom|\bamp|\bi\d?\b/],
  ['temperature', /temp|celsius|fahrenheit|\bt\d+\b|fuhler|thermo|\bprobe|sonde|sensor/],
];

/** The header in small letters, accents and punctuation taken out. */
export function plainHeader(header: string): string {
  return header
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}#%°φϕ]+/gu, ' ')
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
  return /\b(avg|average|mean|mittel\w*|durchschnitt\w*|moy|moyenne|media|medio|gemiddeld\w*)\b/.test(
    plainHeader(header),
  );
}
