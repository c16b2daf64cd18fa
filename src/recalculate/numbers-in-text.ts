/** A number that becomes text has fifteen digits in a spreadsheet program, and up to seventeen in an engine. */
export function withNumbersShown(text: string): string {
  return text.length > 16 ? text.replace(/\d+\.\d+/g, shown) : text;
}

/** The same, with what may be a whole number or a mark of many digits: for comparing, not for writing. */
export function withAllDigitsShown(text: string): string {
  return text.length >= 16 ? text.replace(/\d+\.\d+|\d{16,}/g, shown) : text;
}

function shown(number: string): string {
  const digits = number.replace(/\D|^0+(?=\d)|^0\.0*/g, "").length;
  return digits > 15 ? String(Number(Number(number).toPrecision(15))) : number;
}
