const MOST_LETTERS = 60

/** The beginning of a long text, so that a line names the thing and does not tell it whole. */
export function shortText(text: string): string {
  const trimmed = text.trim()
  return trimmed.length > MOST_LETTERS ? `${trimmed.slice(0, MOST_LETTERS).trimEnd()}…` : trimmed
}
