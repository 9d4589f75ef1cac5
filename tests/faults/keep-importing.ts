import { openStore } from '../../server/store/open-store.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { placeOfArguments } from './run-program.ts'

/** Program for a test that kills it: takes in a large feeder again and again, and prints each version that is kept. */
const store = await openStore(placeOfArguments())
const stamp = { at: new Date().toISOString(), actor: { id: 'writer', role: 'planner' } as const }
const feeder = smallFeeder({ poles: 2000 })
feeder.protections = feeder.poles.slice(1).map(({ id }) => ({
  id: `cover-${id}`,
  pole: id,
  kind: 'cover',
  what: 'cover',
  state: 'planned',
  on: '2026-05-01',
}))
for (;;) {
  process.stdout.write('begun\n')
  const version = await store.feeders.add(feeder, 'added', stamp)
  process.stdout.write(`${version}\n`)
}
