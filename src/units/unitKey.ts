/**
 * Brings a spelling of a unit to the form in which it is compared: one blank for blanks and for the multiplication
 * dot, `°` for "deg", plain digits for raised ones, no blank about a slash. Capitals stay as they are.
 */
export function unitKey(spelling: string): string {
  return spelling
    .replace(/[\s·⋅*]+/g, ' ')
    .replace(/℃/g, '°C')
    .replace(/℉/g, '°F')
    .replace(/[º˚]/g, '°')
    .replace(/μ/g, 'µ') // Greek letter for the micro sign
    .replace(/\u2126/g, 'Ω') // ohm sign for the Greek letter
    .replace(/\bdeg(?:rees?)?\.? ?(?=[CFKRcfkr])/gi, '°')
    .replace(/° /g, '°')
    .replace(/²/g, '2')
    .replace(/³/g, '3')
    .replace(/⁻¹/g, '-1')
    .replace(/\^/g, '')
    .replace(/ ?\/ ?/g, '/')
    .replace(/\( /g, '(')
    .replace(/ \)/g, ')')
    .replace(/\.? ?$/, '')
    .trim();
}
