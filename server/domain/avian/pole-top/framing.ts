/**
 * How a pole carries its conductors; equipment comes on top of it by itself. Length of the arm,
 * drop of the outer phases and the like are dimensions, which a measured one may replace.
 */
export const FRAMINGS = [
  'pole-top pin',
  'single-phase dead-end',
  'two-phase arm',
  'arm and pole-top pin',
  'flat arm',
  'vertical corner',
  'dead-end arm',
  'double dead-end arm',
] as const
export type Framing = (typeof FRAMINGS)[number]

/**
 * Dimensions that a framing may use, metres; z and drops are counted from the pole top.
 *
 * - `outerPhaseM`: from the pole's axis to the outer phase, across the line.
 * - `middlePhaseM`: the same of the middle phase where all three stand on the arm.
 * - `topPinM`: conductor on the pole-top pin above the pole top.
 * - `outerDropM`: outer phases below the one on the pole top.
 * - `armPinM`: conductor on an arm pin above the arm.
 * - `verticalStepM`: between phases that hang one below the other.
 * - `neutralBelowTopM`: neutral below the pole top.
 * - `bracketBelowTopM`: bracket of cutouts and arresters below the pole top.
 * - `lidBelowTopM`: lid of transformers, regulators and the like below the pole top.
 * - `bushingM`: top of a bushing above its lid.
 */
export const DIMENSIONS = [
  'outerPhaseM',
  'middlePhaseM',
  'topPinM',
  'outerDropM',
  'armPinM',
  'verticalStepM',
  'neutralBelowTopM',
  'bracketBelowTopM',
  'lidBelowTopM',
  'bushingM',
] as const
export type Dimension = (typeof DIMENSIONS)[number]
