import { DEMO_ROLES, type DemoRole } from '#contract/account.ts'
import type { PersonStore } from '../services/people-ports.ts'
import { CAME_WITH_THE_PROGRAM } from './names.ts'

/** Invented; one for each role that the demo can be entered as. */
export function demoPersonId(role: DemoRole): string {
  return `demo-${role}`
}

/** Makes those of the demo's people that the record does not hold. */
export async function addDemoPeople(people: PersonStore, at: string): Promise<void> {
  for (const role of DEMO_ROLES) {
    const id = demoPersonId(role)
    if (await people.find(id)) continue
    const person = { id, name: `Demo ${role}`, email: `${role}@demo.invalid`, roles: [role] }
    await people.add(
      { ...person, state: 'active', isDemo: true },
      { actor: CAME_WITH_THE_PROGRAM, at },
    )
  }
}
