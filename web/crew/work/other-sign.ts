/** What is typed, with the other sign; keypads of phones have no minus. */
export function otherSign(typed: string): string {
  const bare = typed.replace(/^\s*[-−–+]\s*/, '')
  return bare === typed.trim() ? `-${bare}` : bare
}
