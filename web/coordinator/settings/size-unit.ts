import { M_PER_FT, M_PER_IN } from '#domain/units/length.ts'
import { useSelection } from '../../state/selection.ts'

export interface LengthUnit {
  readonly unit: string
  /** Metres of one. */
  readonly perM: number
}

/** Inches or centimetres, for gaps and birds. */
export function useGapUnit(): LengthUnit {
  return useSelection().units === 'us' ? { unit: 'in', perM: M_PER_IN } : { unit: 'cm', perM: 0.01 }
}

/** Feet or metres, for buffers. */
export function useBufferUnit(): LengthUnit {
  return useSelection().units === 'us' ? { unit: 'ft', perM: M_PER_FT } : { unit: 'm', perM: 1 }
}
