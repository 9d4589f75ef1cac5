import { z } from 'zod'
import { Id } from './identifiers.ts'

const kilo = z.number().default(0)

/**
 * Load at its recorded value; a case multiplies it. Wye loads use the A, B and C
 * columns, delta loads AB, BC and CA. Positive is consumed.
 */
export const Load = z
  .object({
    id: Id,
    /** At a pole, or spread evenly along a span: exactly one of the two. */
    pole: Id.optional(),
    span: Id.optional(),
    connection: z.enum(['wye', 'delta']).default('wye'),
    kwA: kilo,
    kwB: kilo,
    kwC: kilo,
    kvarA: kilo,
    kvarB: kilo,
    kvarC: kilo,
    kwAb: kilo,
    kwBc: kilo,
    kwCa: kilo,
    kvarAb: kilo,
    kvarBc: kilo,
    kvarCa: kilo,
    /** Shares of constant power, current and impedance; they add to 1. */
    constantPower: z.number().min(0).max(1).default(1),
    constantCurrent: z.number().min(0).max(1).default(0),
    constantImpedance: z.number().min(0).max(1).default(0),
    customers: z.number().int().min(0).default(0),
    /** Customer class; cases set their factors by it. */
    customerClass: z.string().default('residential'),
    energyKwhPerYear: z.number().min(0).optional(),
    name: z.string().optional(),
  })
  .refine((load) => (load.pole === undefined) !== (load.span === undefined), {
    error: 'must name a pole or a span, and not both',
  })
  .refine(
    (load) =>
      Math.abs(load.constantPower + load.constantCurrent + load.constantImpedance - 1) < 1e-6,
    {
      error: 'constant_power, constant_current and constant_impedance must add to 1',
    },
  )
export type Load = z.infer<typeof Load>
