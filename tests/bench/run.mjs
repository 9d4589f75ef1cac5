import { installPackages } from '../../server/run/packages.mjs'
import { giveUp, runPackage } from '../../server/run/project.mjs'

await installPackages().catch(giveUp)
process.exitCode = await runPackage('tsx/dist/cli.mjs', [
  'tests/bench/bench.ts',
  ...process.argv.slice(2),
])
