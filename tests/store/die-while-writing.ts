import { repeatableWrites } from '../../server/services/repeatable-writes.ts'
import { openStore } from '../../server/store/open-store.ts'

/** Claims a key, writes, and is gone before anything is kept. Started by a test as a process. */
const [, , optionsText = '', writeText = ''] = process.argv
const store = await openStore(JSON.parse(optionsText))
const { once } = repeatableWrites({ store, clock: () => new Date().toISOString() })
const stamp = { actor: { id: 'robin', role: 'coordinator' as const }, at: new Date().toISOString() }
const body = { pole: 'P3', kind: 'cover', what: 'cap', state: 'on', on: '2026-05-01' } as const

const { requestKeys } = store
const dyingStore: typeof requestKeys = {
  ...requestKeys,
  keep: async (...given) => {
    await requestKeys.keep(...given)
    process.kill(process.pid, 'SIGKILL')
  },
}
Object.assign(store, { requestKeys: dyingStore })
await once(JSON.parse(writeText), () => store.protections.add('small', 'cover-9', body, stamp))
