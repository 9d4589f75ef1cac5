import type { Actor } from '#contract/actor.ts'
import type { PeopleStore } from '../services/people-ports.ts'

/** In the history, for what no person did. */
export const CAME_WITH_THE_PROGRAM: Actor = { id: 'came-with-the-feeder', role: 'coordinator' }
/** Whoever may run commands on the server's own machine. */
export const AT_THE_SERVER: Actor = { id: 'at-the-server', role: 'administrator' }

const OTHERS: Readonly<Record<string, string>> = {
  [CAME_WITH_THE_PROGRAM.id]: 'Came with the feeder',
  [AT_THE_SERVER.id]: 'Somebody at the server itself',
}

/** Names to show in place of the ids of the record: people, machines, and what came along. */
export async function namesById({
  people,
  tokens,
}: Pick<PeopleStore, 'people' | 'tokens'>): Promise<Record<string, string>> {
  const machines = (await tokens.list()).map(({ id, name }) => [id, name] as const)
  const persons = (await people.list()).map(({ id, name }) => [id, name] as const)
  return { ...OTHERS, ...Object.fromEntries([...machines, ...persons]) }
}
