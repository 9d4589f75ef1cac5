import type { z } from 'zod'
import type { InputFault } from '#contract/problem.ts'
import { Refusal } from '../services/refusal.ts'

const PART_NAMES: Readonly<Record<string, string>> = {
  json: 'body',
  param: 'params',
  query: 'query',
}

/**
 * What is wrong with one part of a request, each fault with its place.
 *
 * @param target the part as the validator names it: json, param or query
 */
export function refuseInput(target: string, error: z.ZodError): Refusal {
  const part = PART_NAMES[target] ?? target
  const faults = error.issues.flatMap((issue) => faultsOf(issue, [part]))
  const [first] = faults
  const detail = first ? `${first.at}: ${first.what}.` : `The ${part} cannot be read.`
  const rest = faults.length > 1 ? ` And ${faults.length - 1} more.` : ''
  return new Refusal('malformed-request', detail + rest, { faults })
}

type Issue = z.core.$ZodIssue

function faultsOf(issue: Issue, above: readonly PropertyKey[]): InputFault[] {
  const path = [...above, ...issue.path]
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({ at: [...path, key].join('.'), what: 'is not known here' }))
  }
  return [{ at: path.join('.'), what: lowerFirst(issue.message) }]
}

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1)
}
