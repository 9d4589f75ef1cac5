/** Later names stand in user agents that also carry the earlier ones, so the order counts. */
const BROWSERS = [
  ['Edg/', 'Edge'],
  ['OPR/', 'Opera'],
  ['SamsungBrowser/', 'Samsung browser'],
  ['Firefox/', 'Firefox'],
  ['FxiOS/', 'Firefox'],
  ['CriOS/', 'Chrome'],
  ['Chrome/', 'Chrome or Chromium'],
  ['Safari/', 'Safari'],
] as const

const SYSTEMS = [
  ['iPhone', 'an iPhone'],
  ['iPad', 'an iPad'],
  ['Android', 'Android'],
  ['Windows', 'Windows'],
  ['Macintosh', 'a Mac'],
  ['CrOS', 'ChromeOS'],
  ['Linux', 'Linux'],
] as const

/**
 * A device in plain words: "Firefox on Windows".
 *
 * @param userAgent as the browser names itself (RFC 9110 §10.1.5); null where it said nothing
 */
export function deviceInWords(userAgent: string | null): string {
  if (!userAgent) return 'A device that did not say what it is'
  const find = (names: readonly (readonly [string, string])[]) =>
    names.find(([mark]) => userAgent.includes(mark))?.[1]
  const browser = find(BROWSERS)
  const system = find(SYSTEMS)
  if (browser) return system ? `${browser} on ${system}` : browser
  return system ? `A program on ${system}` : 'A program that is no browser'
}
