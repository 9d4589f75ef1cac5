import { lineVoltsInWords } from '#domain/units/rounded-volts.ts'

/** Of one step of a step-voltage regulator, 5/8 % of its volts: IEEE C57.15, from memory. */
export const STEP_PU = 0.00625

/** Volts that one step of a unit makes between source and load: 45 V at 7200 V. */
export function stepV(neutralV: number): number {
  return STEP_PU * neutralV
}

/**
 * What a bypass closed off neutral would do: volts across it and, by Ohm's law, amperes through the
 * loop that it closes. Between the taps the current need not follow the volts, since the leakage of
 * the winding falls faster than its volts do: a position just off neutral is not a safe one.
 * @param neutralV volts from phase to neutral
 * @param tap steps off neutral, to either side
 * @param loopOhm impedance of the loop of bypass, leads and series winding
 */
export function bypassOffNeutral(
  neutralV: number,
  tap: number,
  loopOhm: number,
): { readonly volts: number; readonly amps: number } {
  if (!(loopOhm > 0)) throw new Error(`Expected a loop impedance above 0 ohm, got ${loopOhm}.`)
  const volts = stepV(neutralV) * Math.abs(tap)
  return { volts, amps: volts / loopOhm }
}

/** Why a bypass stays open, in figures. */
export function bypassInWords(neutralV: number, loopOhm: number): string {
  const one = bypassOffNeutral(neutralV, 1, loopOhm)
  const all = bypassOffNeutral(neutralV, 16, loopOhm)
  return (
    `One step off neutral puts ${acrossInWords(one.volts)} across it and about ${loopAmpsInWords(one.amps)} ` +
    `through a loop of ${loopOhm} ohm; sixteen steps ${acrossInWords(all.volts)} and ${loopAmpsInWords(all.amps)}.`
  )
}

/** "45.0 V", "1,440 V": volts across a bypass; one step is told finer than what many make. */
export function acrossInWords(volts: number): string {
  return volts < 100 ? `${volts.toFixed(1)} V` : lineVoltsInWords(volts)
}

/** "900 A": the impedance of the loop is an assumption, so its current is good for no more than tens. */
export function loopAmpsInWords(amps: number): string {
  const rounded = amps < 100 ? Math.round(amps) : Math.round(amps / 10) * 10
  return `${rounded.toLocaleString('en-US')} A`
}
