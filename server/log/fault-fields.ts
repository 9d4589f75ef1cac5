import { scrub } from './scrub.ts'

/** A fault as it stands in the log. */
export interface FaultFields {
  readonly type: string
  readonly message: string
  readonly code?: string
  readonly stack?: string
  readonly cause?: FaultFields
}

const MOST_CAUSES = 4

/**
 * Type, words, code and stack of a fault and of what caused it. Other members are left out: those
 * of a database may hold the row that was being written.
 */
export function faultFields(
  fault: unknown,
  secrets: readonly string[],
  depth = MOST_CAUSES,
): FaultFields {
  if (!(fault instanceof Error))
    return { type: typeof fault, message: scrub(String(fault), secrets) }
  const { name, message, stack, cause } = fault
  const code: unknown = 'code' in fault ? fault.code : undefined
  return {
    type: name,
    message: scrub(message, secrets),
    ...(typeof code === 'string' && { code }),
    ...(stack !== undefined && { stack: scrub(stack, secrets) }),
    ...(cause !== undefined && depth > 0 && { cause: faultFields(cause, secrets, depth - 1) }),
  }
}
