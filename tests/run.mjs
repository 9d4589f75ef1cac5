import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { installPackages } from '../server/run/packages.mjs'
import { PROJECT_FOLDER, runPackage, runProgram } from '../server/run/project.mjs'
import { auditPackages } from './support/audit-packages.mjs'
import { ensureChromium } from './support/install-chromium.mjs'

const RESULTS = join(PROJECT_FOLDER, 'artifacts/test-results.json')

/**
 * @typedef {{ status: string, assertionResults: unknown[] }} FileResult
 * @typedef {{ numPassedTests: number, numFailedTests: number, testResults: FileResult[] }} Results
 */

/** @param {string[]} extra arguments for vitest, as a path or `-t` with a title */
async function runTests(extra) {
  rmSync(RESULTS, { force: true })
  const code = await runPackage('vitest/vitest.mjs', [
    'run',
    '--config',
    'tests/vitest.config.ts',
    '--reporter=default',
    '--reporter=json',
    '--reporter=tests/support/databases-reporter.ts',
    `--outputFile.json=${RESULTS}`,
    ...extra,
  ])
  if (!existsSync(RESULTS)) return { passed: 0, failed: 1 }
  /** @type {Results} */
  const results = JSON.parse(readFileSync(RESULTS, 'utf8'))
  const unloadable = results.testResults.filter(
    ({ status, assertionResults }) => status === 'failed' && assertionResults.length === 0,
  ).length
  const failed = results.numFailedTests + unloadable
  return {
    passed: results.numPassedTests,
    // Vitest also fails for an error outside every test, which no count shows.
    failed: failed === 0 && code !== 0 ? 1 : failed,
  }
}

/**
 * @param {string} what
 * @param {string} script below server/run
 */
async function runStep(what, script) {
  const code = await runProgram(process.execPath, [`server/run/${script}`])
  if (code !== 0) console.error(`FAILED: ${what}`)
  return code === 0 ? 0 : 1
}

async function runAll() {
  await installPackages()
  ensureChromium()
  mkdirSync(join(PROJECT_FOLDER, 'artifacts'), { recursive: true })
  const steps = [auditPackages(), runStep('check', 'check.mjs'), runStep('build', 'build.mjs')]
  const failedSteps = (await Promise.all(steps)).reduce((sum, failed) => sum + failed, 0)
  const { passed, failed } = await runTests(process.argv.slice(2))
  return { passed, failed: failed + failedSteps }
}

/** @param {unknown} error */
function couldNotRun(error) {
  console.error(error instanceof Error ? error.message : String(error))
  return { passed: 0, failed: 1 }
}

const { passed, failed } = await runAll().catch(couldNotRun)
console.log(`${passed} passed, ${failed} failed`)
process.exitCode = failed > 0 ? 1 : 0
