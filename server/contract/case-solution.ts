import { z } from 'zod'
import { Finding } from '#domain/feeder/finding.ts'
import { PhaseName } from '#domain/feeder/phases.ts'

/**
 * The electrical answer as it travels. The solver keeps its types free of schemas,
 * so they stand here a second time; a type test holds the two together.
 */
const byPhase = <Value extends z.ZodType>(value: Value) => z.partialRecord(PhaseName, value)

const PhaseVoltage = z.object({ pu: z.number(), angleDeg: z.number(), volts120: z.number() })

const NodeVoltage = z.object({
  id: z.string(),
  poleId: z.string(),
  nominalV: z.number(),
  distanceM: z.number(),
  phases: byPhase(PhaseVoltage),
})

const SpanFlow = z.object({
  id: z.string(),
  from: z.string(),
  to: z.string(),
  current: byPhase(z.object({ amps: z.number(), angleDeg: z.number() })),
  loadingPct: z.number().nullable(),
  sendingKw: z.number(),
  sendingKvar: z.number(),
  lossKw: z.number(),
  lossKvar: z.number(),
})

const RegulatorState = z.object({
  id: z.string(),
  poleId: z.string(),
  spanId: z.string(),
  taps: byPhase(z.number()),
  outputVolts120: byPhase(z.number()),
  relayVolts: byPhase(z.number()),
  currentA: byPhase(z.number()),
  atLimit: z.array(PhaseName),
})

const Totals = z.object({
  inputKw: z.number(),
  inputKvar: z.number(),
  loadKw: z.number(),
  loadKvar: z.number(),
  lossKw: z.number(),
  lossKvar: z.number(),
})

export const CaseSolution = z.discriminatedUnion('status', [
  z.object({
    status: z.literal('converged'),
    caseId: z.string(),
    iterations: z.number().int(),
    nodes: z.array(NodeVoltage),
    spans: z.array(SpanFlow),
    regulators: z.array(RegulatorState),
    totals: Totals,
  }),
  z.object({
    status: z.literal('not-converged'),
    caseId: z.string(),
    iterations: z.number().int(),
    reason: z.enum(['voltage-collapse', 'iteration-limit', 'tap-hunting']),
    worstNodeId: z.string(),
    what: z.string(),
  }),
  z.object({ status: z.literal('rejected'), findings: z.array(Finding) }),
])
export type CaseSolution = z.infer<typeof CaseSolution>
