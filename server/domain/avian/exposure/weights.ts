import type { BirdSettings } from '../bird-settings.ts'
import type { ExposureWeights } from './exposure.ts'

/**
 * How much each factor counts until somebody sets it. All of it is judgement: no published figures
 * are behind it. That pole, habitat and lie of the land all bear on deaths is published (Schomburg
 * 2003; Tinto and others 2010: conductivity, arm, habitat, topography); how much each does here is not.
 */
export const SHIPPED_WEIGHTS: ExposureWeights = {
  nest: 3,
  habitat: 1.5,
  'open ground': 1,
  prominence: 1,
  'taller than neighbours': 0.5,
  'incidents nearby': 3,
}

export const WEIGHTS_ARE_JUDGEMENT =
  'Weights are judgement, not published figures; set them to what is known of the place.'

/** The shipped ones, with those that the utility set in their place. */
export function exposureWeights(settings?: BirdSettings): ExposureWeights {
  return { ...SHIPPED_WEIGHTS, ...settings?.weights }
}
