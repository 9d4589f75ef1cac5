import type { Person, Role, StoredPerson } from '../services/people-ports.ts'
import type { PersonRow } from './tables.ts'

export function personOf(row: PersonRow): StoredPerson {
  return {
    id: row.id,
    name: row.name,
    email: row.email,
    roles: JSON.parse(row.roles) as Role[],
    state: row.state as Person['state'],
    isDemo: row.is_demo === 1,
    version: row.version,
    changedBy: { id: row.actor_id, role: row.actor_role as Role },
    changedAt: row.changed_at,
    lastSignInAt: row.last_sign_in_at,
  }
}
