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
const failed = []
for (const { what, file, args } of CHECKS) {
  const code = await runPackage(file, args)
  console.log(`${code === 0 ? 'ok    ' : 'FAILED'}  ${what}`)
  if (code !== 0) failed.push(what)
}
if (failed.length > 0)
  giveUp(`${failed.length} of ${CHECKS.length} checks failed: ${failed.join('; ')}.`)
