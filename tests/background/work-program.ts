import { openWork } from '../../server/background/open-work.ts'
import { openThreads } from '../../server/background/threads.ts'
import { workKinds } from '../../server/services/work-kinds.ts'
import { openStore } from '../../server/store/open-store.ts'

/** Program for tests that kill or stop it: a process that does nothing but take work, one at a time. */
const [dataFolder = '', databaseUrl] = process.argv.slice(2)
const store = await openStore({ dataFolder, ...(databaseUrl && { databaseUrl }) })
const workerFile = (name: string) => new URL(`../../server/background/${name}.ts`, import.meta.url)
const threads = openThreads(workerFile, 1)
const clock = () => new Date().toISOString()
const work = await openWork({
  store: store.work,
  kinds: workKinds({ store, threads, clock }),
  clock,
  reportFault: console.error,
  slots: 1,
  ...(databaseUrl && { databaseUrl }),
})
process.once('SIGTERM', async () => {
  await work.stop()
  await threads.close()
  await store.close()
})
process.stdout.write('ready\n')
