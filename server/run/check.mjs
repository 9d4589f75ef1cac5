import { installPackages } from './packages.mjs'
import { giveUp, runPackage } from './project.mjs'

/** @type {{ what: string, file: string, args: string[] }[]} */
const CHECKS = [
  { what: 'types', file: 'typescript/bin/tsc', args: ['--noEmit', '-p', 'tsconfig.json'] },
  {
    what: 'types of the domain, without a browser or Node',
    file: 'typescript/bin/tsc',
    args: ['--noEmit', '-p', 'server/domain/tsconfig.json'],
  },
  {
    what: 'lint and format',
    file: '@biomejs/biome/bin/biome',
    args: ['check', '--config-path=server', '--error-on-warnings', '.'],
  },
  {
    what: 'import arrows and layout',
    file: 'vitest/vitest.mjs',
    args: ['run', '--config', 'tests/vitest.config.ts', '--project', 'node', 'tests/architecture'],
  },
]

await installPackages().catch(giveUp)
// Side by side, since none needs another and each leaves a core idle for part of its time.
const codes = await Promise.all(CHECKS.map(({ file, args }) => runPackage(file, args)))
for (const [index, { what }] of CHECKS.entries()) {
  console.log(`${codes[index] === 0 ? 'ok    ' : 'FAILED'}  ${what}`)
}
const failed = CHECKS.filter((_, index) => codes[index] !== 0).map(({ what }) => what)
if (failed.length > 0)
  giveUp(`${failed.length} of ${CHECKS.length} checks failed: ${failed.join('; ')}.`)
