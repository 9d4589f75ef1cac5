import type { Dimension } from '#domain/avian/pole-top/framing.ts'

/** What to hold the tape to, in the words of the trade. */
export const DIMENSION_WORDS: Readonly<Record<Dimension, string>> = {
  outerPhaseM: 'Pole centre to outer phase, across the line',
  middlePhaseM: 'Pole centre to middle phase on the arm',
  topPinM: 'Pole-top conductor above the pole top',
  outerDropM: 'Outer phases below the pole-top phase',
  armPinM: 'Conductor above the arm',
  verticalStepM: 'Between phases one below the other',
  neutralBelowTopM: 'Neutral below the pole top',
  bracketBelowTopM: 'Cutout or arrester bracket below the pole top',
  lidBelowTopM: 'Lid of the equipment below the pole top',
  bushingM: 'Top of a bushing above its lid',
}
