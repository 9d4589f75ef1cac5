import { M_PER_IN } from '#domain/units/length.ts'

/** How sure a figure is, as the screens say it beside the figure. */
export type Sureness = 'published' | 'from memory' | 'common practice, no source' | 'assumption'

export interface SeparationGuidance {
  readonly horizontalM: number
  readonly verticalM: number
  readonly citation: string
  readonly sureness: Sureness
  readonly note: string
}

/**
 * Separation that keeps an eagle from bridging two parts: wrist to wrist across, head to foot up
 * and down. Reaching either one is enough.
 */
export const EAGLE_GUIDANCE: SeparationGuidance = {
  horizontalM: 60 * M_PER_IN,
  verticalM: 40 * M_PER_IN,
  citation:
    'Avian Power Line Interaction Committee (APLIC), Suggested Practices for Avian Protection on Power Lines: The State of the Art in 2006',
  sureness: 'from memory',
  note: 'The two figures were written down from memory and seen in a secondary source; check them against the publication. Local agencies may ask for more.',
}
