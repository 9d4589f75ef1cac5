/**
 * Voltage at the meter, 120 V base (ANSI C84.1 for services up to 600 V, as quoted by a cooperative's
 * service page that cites it; utilization limits are lower and not used here).
 */
export const SERVICE_RANGE_A = { lowVolts120: 114, highVolts120: 126 } as const
export const SERVICE_RANGE_B = { lowVolts120: 110, highVolts120: 127 } as const

/** What the primary limits mean beside the service ranges, in one sentence. */
export function serviceRangeSentence(lowVolts120: number, highVolts120: number): string {
  const [a, b] = [SERVICE_RANGE_A, SERVICE_RANGE_B]
  return `Limits of ${lowVolts120} to ${highVolts120} V are for the primary, drops in transformer and service still to come; at the meter ANSI C84.1 has ${a.lowVolts120} to ${a.highVolts120} V as Range A and ${b.lowVolts120} to ${b.highVolts120} V as Range B.`
}
