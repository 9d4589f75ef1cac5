import { shareValue, useShared } from '../device/shared-value.ts'

/** How sure a computed figure or its formula is. */
export type Sureness =
  | 'published'
  /** In a text that quotes the source; the source itself was not in hand. */
  | 'seen second hand'
  | 'from memory'
  | 'common practice, no source'
  | 'assumption'
  | 'computed'

/** How a computed figure came about, for the "Working shown" sheet. */
export interface Working {
  /** "Lowest voltage at peak". */
  readonly title: string
  /** With its unit: "109.6 V". */
  readonly result: string
  /** In ordinary notation, one line each. */
  readonly formula: readonly string[]
  readonly inputs: readonly { readonly name: string; readonly value: string }[]
  readonly source: string
  readonly sureness: Sureness
  /** Where the inputs can be changed, in words. */
  readonly changeAt?: string
}

const shown = shareValue<Working | null>(null)

/** Opens the one "Working shown" sheet; null closes it. */
export const showWorking = shown.set

export function useShownWorking(): Working | null {
  return useShared(shown)
}
