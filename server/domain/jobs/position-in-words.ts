/** A position as the indicator at the unit shows it: "neutral", "3 raise". */
export function positionInWords(position: number): string {
  if (position === 0) return 'neutral'
  return position > 0 ? `${position} raise` : `${-position} lower`
}
