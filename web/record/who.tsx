import type { Actor } from '#contract/actor.ts'
import { useNames } from '../api/names.ts'
import { ROLE_WORDS } from './role-words.ts'

/** A person by name, with the role in which they acted: "Robin Hale (planner)". */
export function Who({ id, role }: Actor) {
  return (
    <>
      {useNames()(id)} ({ROLE_WORDS[role]})
    </>
  )
}
