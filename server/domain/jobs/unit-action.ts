/**
 * What is done to one unit of a bank and to the switches around it. `prove neutral` takes the signs
 * that its step asks for; the others change what stands open or closed.
 */
export const UNIT_ACTIONS = [
  'run to neutral',
  'prove neutral',
  'make the tap drive inoperative',
  'restore the tap drive',
  'tap through raise and lower',
  'close the bypass',
  'open the bypass',
  'close the source switch',
  'open the source switch',
  'close the load switch',
  'open the load switch',
  'close the neutral-side switch',
  'open the neutral-side switch',
  'install the jumper',
  'remove the jumper',
  'test dead and ground',
  'remove the grounds',
  'take the unit down',
  'set the unit',
] as const
export type UnitAction = (typeof UNIT_ACTIONS)[number]

export const NEUTRAL_SIDE_ACTIONS: readonly UnitAction[] = [
  'close the neutral-side switch',
  'open the neutral-side switch',
]
