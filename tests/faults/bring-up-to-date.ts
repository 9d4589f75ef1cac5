import { openStore } from '../../server/store/open-store.ts'
import { placeOfArguments } from './run-program.ts'

/** Program for a test that kills it: opens a database of an older version. */
const store = await openStore(placeOfArguments())
process.stdout.write('done\n')
await store.close()
