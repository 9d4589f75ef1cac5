import { openStore } from '../../server/store/open-store.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { placeOfArguments } from './run-program.ts'

/** Program for a test that kills it: records items one after the other and prints each once it is kept. */
const store = await openStore({ ...placeOfArguments(), isServer: true })
const stamp = { at: new Date().toISOString(), actor: { id: 'writer', role: 'crew' } as const }
await store.feeders.add(smallFeeder(), 'added', stamp)
const body = { pole: 'P2', kind: 'cover', what: 'cover', state: 'on', on: '2026-05-01' } as const
for (let number = 1; ; number++) {
  await store.protections.add('small', `item-${number}`, body, stamp)
  process.stdout.write(`item-${number}\n`)
}
