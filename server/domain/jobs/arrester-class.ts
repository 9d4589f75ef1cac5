type Row = readonly [lineKv: number, dutyCycleKv: number, continuousKv: number]

/**
 * Usual arrester on a four-wire, multigrounded wye line by its kilovolts from phase to phase: rating
 * by duty cycle and continuous voltage, kilovolts (IEEE C62.22, from memory: check against the
 * standard and the utility's own).
 */
const CLASSES: readonly Row[] = [
  [4.16, 3, 2.55],
  [8.32, 6, 5.1],
  [12, 9, 7.65],
  [12.47, 9, 7.65],
  [13.2, 10, 8.4],
  [13.8, 10, 8.4],
  [20.78, 15, 12.7],
  [22.86, 18, 15.3],
  [24.94, 18, 15.3],
  [34.5, 27, 22],
]

/** The same system under a slightly other figure. */
const SAME_SHARE = 0.01

export const ARRESTER_SOURCE =
  'class for a multigrounded wye line by IEEE C62.22, from memory: check it'

export interface ArresterClass {
  readonly dutyCycleKv: number
  readonly continuousKv: number
}

/** Null for a voltage that the table does not have. */
export function arresterClass(lineKv: number): ArresterClass | null {
  const row = CLASSES.find(([kv]) => Math.abs(kv / lineKv - 1) <= SAME_SHARE)
  return row ? { dutyCycleKv: row[1], continuousKv: row[2] } : null
}
