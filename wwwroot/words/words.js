// What scripts say to people, in the language of the page. English stands where it is said and needs no request; the words of another language come once, from an address that names
// them (ScriptTexts.cs) and that the page tells. Where they do not arrive, English stays.

const language = document.documentElement.lang || 'en';
const locale = language === 'en' || language.startsWith('qps') ? 'en-GB' : language;
let texts = {};
const address = document.querySelector('meta[name="texts"]')?.content;
if (address) {
  try {
    texts = (await import(address)).default;
  } catch {
    // Without a connection.
  }
}

/** A text with what goes into its holes {0}, {1}, …; numbers as the reader writes them. */
export function t(text, ...values) {
  return (texts[text] ?? text).replace(/\{(\d+)\}/g, (_, hole) => typeof values[hole] === 'number' ? number(values[hole], 3) : values[hole]);
}

/** A number with that many decimals at most; thousands stand apart by a space that does not break. */
export function number(value, most = 0, least = 0) {
  return new Intl.NumberFormat(locale, { maximumFractionDigits: most, minimumFractionDigits: least }).formatToParts(value)
    .map(({ type, value: part }) => type === 'group' ? '\u00a0' : part).join('');
}

/** “29 November 2026”. */
export function day(date) {
  return date.toLocaleDateString(locale, { day: 'numeric', month: 'long', year: 'numeric' });
}

/** An address of this site's interface, asked to answer in the language of the page. */
export function inLanguage(address) {
  const whole = new URL(address, location.href);
  if (language !== 'en') whole.searchParams.set('language', language);
  return whole;
}
