import { ROLES, type Role } from '#contract/actor.ts'
import { ROLE_WORDS } from '../record/role-words.ts'
import { CheckBoxes } from './check-boxes.tsx'

/** What each role is for, in a line; the table of rights says it exactly. */
const WHAT_ROLES_MAY: Readonly<Record<Role, string>> = {
  planner: 'Takes in feeders, runs siting studies, keeps proposals.',
  coordinator: 'Takes in feeders; records, deletes and restores guards, covers and perches.',
  crew: 'Records and changes guards, covers and perches; attaches photos.',
  supervisor: 'Does what planner and coordinator do to the record, and takes the history out.',
  reader: 'Sees feeders and voltages. No nests, incidents or history; changes nothing.',
  administrator: 'Manages people and tokens, purges what was deleted, takes the history out.',
}

const CHOICES = ROLES.map((role) => ({
  value: role,
  words: ROLE_WORDS[role],
  hint: WHAT_ROLES_MAY[role],
}))

interface Props {
  readonly chosen: readonly Role[]
  readonly fault: string | null
  readonly onChoose: (roles: Role[]) => void
}

export function RoleBoxes(props: Props) {
  return <CheckBoxes legend="Roles" choices={CHOICES} {...props} />
}
