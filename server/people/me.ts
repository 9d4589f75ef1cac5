import type { Me } from '#contract/account.ts'
import type { Role } from '#contract/actor.ts'
import { rightsOf } from '#contract/rights.ts'
import type { StoredPerson } from '../services/people-ports.ts'
import type { PeoplePorts } from './people-ports.ts'
import type { MachineVisit, Visit } from './visit.ts'

export async function meOf(ports: Pick<PeoplePorts, 'store'>, visit: Visit): Promise<Me> {
  if ('machine' in visit) return meOfMachine(visit)
  return meOfPerson(ports, visit.person, visit.asker.role)
}

/** @param actingRole the first of the person's roles when left out */
export async function meOfPerson(
  { store }: Pick<PeoplePorts, 'store'>,
  person: StoredPerson,
  actingRole: Role = person.roles[0] ?? 'reader',
): Promise<Me> {
  return {
    id: person.id,
    name: person.name,
    email: person.isDemo ? null : person.email,
    roles: person.roles,
    actingRole,
    rights: rightsOf({ role: actingRole }),
    isDemo: person.isDemo,
    hasSecondFactor: await store.people.hasSecondFactor(person.id),
  }
}

function meOfMachine({ asker, machine }: MachineVisit): Me {
  return {
    id: machine.id,
    name: machine.name,
    email: null,
    roles: [machine.role],
    actingRole: machine.role,
    rights: rightsOf(asker),
    isDemo: false,
    hasSecondFactor: false,
  }
}
