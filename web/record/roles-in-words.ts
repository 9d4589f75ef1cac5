import type { Role } from '#contract/actor.ts'
import { listed } from '../state/format.ts'
import { ROLE_WORDS } from './role-words.ts'

/** Several roles in one phrase: "planner and supervisor". */
export function rolesInWords(roles: readonly Role[]): string {
  return listed(roles.map((role) => ROLE_WORDS[role]))
}
