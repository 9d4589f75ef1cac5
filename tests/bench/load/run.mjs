import { installPackages } from '../../../server/run/packages.mjs'
import { giveUp, runPackage, runProgram } from '../../../server/run/project.mjs'

await installPackages().catch(giveUp)
const built = await runProgram(process.execPath, ['server/run/build.mjs'])
process.exitCode =
  built ||
  (await runPackage('tsx/dist/cli.mjs', [
    'tests/bench/load/load-bench.ts',
    ...process.argv.slice(2),
  ]))
