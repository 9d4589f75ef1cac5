import type { BirdSize } from '#domain/avian/species/bird-species.ts'

/**
 * A perched bird with its wings spread, drawn for this project. Feet stand at 0 0, the head is at
 * 0 −100; wrists are at ±100. What lies beyond the wrists is primary feathers.
 */
export const BIRD_BODY =
  'M0 -100C7 -100 11 -95 11 -89C11 -84 9 -80 10 -76C15 -73 17 -66 17 -56C17 -42 14 -28 9 -17L8 -4H14V0H3V-8L0 -14L-3 -8V0H-14V-4H-8L-9 -17C-14 -28 -17 -42 -17 -56C-17 -66 -15 -73 -10 -76C-9 -80 -11 -84 -11 -89C-11 -95 -7 -100 0 -100Z'
export const BIRD_BEAK = 'M-3 -90L0 -80L3 -90Z'
export const BIRD_TAIL = 'M-9 -20L-16 14L-7 17L0 19L7 17L16 14L9 -20Z'
export const BIRD_WING =
  'M10 -72C24 -82 40 -92 58 -95C74 -97 90 -95 100 -91C98 -82 93 -74 87 -68L82 -52L74 -60L69 -44L60 -53L54 -38L46 -48L39 -34L31 -44L16 -38Z'
export const BIRD_FEATHERS =
  'M100 -91C112 -93 127 -92 140 -87L118 -84L141 -74L113 -76L134 -60L107 -68L122 -47L100 -61L106 -38L87 -68C93 -74 98 -82 100 -91Z'

/** Units of the outline across (to the wrists) and up. */
const HALF_BREADTH = 100
const HEIGHT = 100

/** How the outline is to be stretched so that it has the bird's size, pixels for a unit. */
export function outlineScale(size: BirdSize, pxPerM: number): { across: number; up: number } {
  return {
    across: ((size.breadthM / 2) * pxPerM) / HALF_BREADTH,
    up: (size.heightM * pxPerM) / HEIGHT,
  }
}
