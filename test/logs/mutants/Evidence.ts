/** A reason to doubt an export. */
export type Evidence =
  | 'time goes back'
  | 'time repeats'
  | 'gap'
  | 'rows missing'
  | 'counter falls'
  | 'counter against power'
  | 'spike'
  | 'power below zero'
  | 'power beyond any socket'
  | 'power factor above 1'
  | 'power against volts and amps'
  | 'temperature out of range';
