import { z } from 'zod'
import { Id } from './identifiers.ts'
import { PhaseSetName } from './phases.ts'

const common = {
  id: Id,
  pole: Id,
  name: z.string().optional(),
  phases: PhaseSetName,
  installedYear: z.number().int().min(1880).max(2200).optional(),
}

/** A device in series sits at the near end (pole `from`) of this span. */
const series = { ...common, span: Id }

export const REGULATOR_MAX_TAP = 16
const Tap = z.number().int().min(-REGULATOR_MAX_TAP).max(REGULATOR_MAX_TAP)

const Serial = z.string().trim().min(1).max(60).optional()

/** Bank of single-phase step-voltage regulators, each phase controlled by itself. */
export const Regulator = z.object({
  ...series,
  kind: z.literal('regulator'),
  /** Type A has its shunt winding on the source side, type B on the load side (IEEE C57.15). */
  windingType: z.enum(['A', 'B']),
  connection: z.literal('wye').default('wye'),
  /** `bypassed`: it hangs there off the line, and the line runs past it. Left out: in service. */
  state: z.enum(['in service', 'bypassed']).optional(),
  /** `switched`: a disconnect switch between SL terminal and neutral at each unit. Left out: solid. */
  neutralSide: z.enum(['solid', 'switched']).optional(),
  /** Serial numbers of the units. */
  serialA: Serial,
  serialB: Serial,
  serialC: Serial,
  /** Nameplate of one unit. */
  ratingKva: z.number().positive().optional(),
  ratingA: z.number().positive().optional(),
  ptRatio: z.number().positive(),
  ctPrimaryA: z.number().positive(),
  /** Control settings on the 120 V base; R and X in volts at rated CT primary current. */
  bandCentreV: z.number().positive(),
  bandwidthV: z.number().positive(),
  rV: z.number().default(0),
  xV: z.number().default(0),
  delayS: z.number().min(0).default(30),
  /** Positions as found; also the positions used when taps are held. */
  tapA: Tap.default(0),
  tapB: Tap.default(0),
  tapC: Tap.default(0),
  /** Narrower range limits, where the bank is held to less than 16 steps. */
  maxRaise: z.number().int().min(0).max(REGULATOR_MAX_TAP).default(REGULATOR_MAX_TAP),
  maxLower: z.number().int().min(0).max(REGULATOR_MAX_TAP).default(REGULATOR_MAX_TAP),
})

/** With `span`: in series, changing the voltage of the line. Without: a service transformer at the pole. */
export const Transformer = z.object({
  ...common,
  kind: z.literal('transformer'),
  span: Id.optional(),
  /** Bank rating, all phases together. */
  ratingKva: z.number().positive(),
  connection: z
    .enum(['grounded-wye-grounded-wye', 'delta-grounded-wye', 'single-phase'])
    .default('single-phase'),
  /** Line-to-line kilovolts of the two sides; needed in series. */
  highKv: z.number().positive().optional(),
  lowKv: z.number().positive().optional(),
  rPct: z.number().min(0).optional(),
  xPct: z.number().min(0).optional(),
})

export const Capacitor = z.object({
  ...common,
  kind: z.literal('capacitor'),
  /** Kilovars per phase at nominal voltage. */
  kvarA: z.number().min(0).default(0),
  kvarB: z.number().min(0).default(0),
  kvarC: z.number().min(0).default(0),
  state: z.enum(['on', 'off']).default('on'),
})

export const Switch = z.object({
  ...series,
  kind: z.enum(['switch', 'recloser', 'fuse']),
  state: z.enum(['closed', 'open']).default('closed'),
  ratingA: z.number().positive().optional(),
})

/** Generation of constant power; a case says how much of the rating is delivered. */
export const Generator = z.object({
  ...common,
  kind: z.enum(['solar', 'generator']),
  /** All phases together. */
  ratedKw: z.number().positive(),
  /** Positive delivers vars, negative absorbs them; 1 is neither. */
  powerFactor: z.number().min(-1).max(1).default(1),
})

/** What else hangs on a pole; it matters to birds and to crews, not to the power flow. */
export const PoleFitting = z.object({
  ...common,
  kind: z.enum(['cutout', 'arrester', 'riser', 'meter', 'guy']),
  count: z.number().int().positive().default(1),
})

export const Equipment = z.discriminatedUnion('kind', [
  Regulator,
  Transformer,
  Capacitor,
  Switch,
  Generator,
  PoleFitting,
])
export type Regulator = z.infer<typeof Regulator>
export type Transformer = z.infer<typeof Transformer>
export type Capacitor = z.infer<typeof Capacitor>
export type Switch = z.infer<typeof Switch>
export type Generator = z.infer<typeof Generator>
export type PoleFitting = z.infer<typeof PoleFitting>
export type Equipment = z.infer<typeof Equipment>
export type EquipmentKind = Equipment['kind']
