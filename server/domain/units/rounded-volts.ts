/** From here on nobody reads volts to the volt: a meter on sticks shows three or four digits. */
const LINE_V = 1000
const STEP_V = 10

/** Volts as they are worth being read off: those of a line to the nearest ten. */
export function roundedVolts(volts: number): number {
  return Math.abs(volts) < LINE_V ? Math.round(volts) : Math.round(volts / STEP_V) * STEP_V
}

/** "14,400 V", "843 V". */
export function lineVoltsInWords(volts: number): string {
  return `${roundedVolts(volts).toLocaleString('en-US')} V`
}
