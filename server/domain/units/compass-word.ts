const COMPASS_WORDS = [
  'north',
  'north-east',
  'east',
  'south-east',
  'south',
  'south-west',
  'west',
  'north-west',
] as const
export type CompassWord = (typeof COMPASS_WORDS)[number]

/**
 * Nearest of the eight compass directions.
 * @param bearingDeg clockwise from north, of any turn
 */
export function compassWord(bearingDeg: number): CompassWord {
  const index = Math.round((((bearingDeg % 360) + 360) % 360) / 45) % COMPASS_WORDS.length
  return COMPASS_WORDS[index] ?? 'north'
}
