import { execFile } from 'node:child_process'
import { PROJECT_FOLDER } from '../../server/run/project.mjs'

/**
 * A flaw in a shipped package that has to be lived with for a time, and why it does no harm here.
 * @typedef {{ package: string, advisory: string, until: string, reason: string }} Allowance
 */

/**
 * Dated: after that day the flaw fails the run again.
 * @type {readonly Allowance[]}
 */
const ALLOWANCES = []

/**
 * @typedef {{ url?: string, title?: string, severity?: string }} Advisory
 * @typedef {{ name: string, severity: string, via: (string | Advisory)[] }} Flaw
 * @typedef {{ auditReportVersion?: number, vulnerabilities?: Record<string, Flaw>, message?: string }} Report
 */

const GRAVE = ['high', 'critical']

/**
 * One sentence for each grave flaw that no allowance covers.
 * @param {Report} report as `npm audit --json` prints it
 * @param {string} today as 2026-11-25
 * @param {readonly Allowance[]} allowances
 * @returns {string[]}
 */
export function graveFlaws(report, today, allowances = ALLOWANCES) {
  return Object.values(report.vulnerabilities ?? {})
    .filter(({ severity }) => GRAVE.includes(severity))
    .flatMap(({ name, via }) =>
      via
        .filter((advisory) => typeof advisory !== 'string')
        .filter(({ severity }) => severity === undefined || GRAVE.includes(severity))
        .filter(({ url }) => !isAllowed(name, url, today, allowances))
        .map(({ title, url, severity }) => `${name}: ${title} (${severity ?? 'grave'}, ${url})`),
    )
}

/**
 * @param {string} name
 * @param {string | undefined} url
 * @param {string} today
 * @param {readonly Allowance[]} allowances
 */
function isAllowed(name, url, today, allowances) {
  return allowances.some(
    (each) => each.package === name && each.advisory === url && today <= each.until,
  )
}

/** Why there is no report, or null where there is one. @param {Report | null} report */
export function whyNoReport(report) {
  if (report?.auditReportVersion !== undefined) return null
  return report?.message ?? 'no answer that could be read'
}

/** @returns {Promise<Report | null>} */
function askRegistry() {
  const args = ['audit', '--omit=dev', '--audit-level=high', '--json']
  return new Promise((resolve) => {
    execFile(
      'npm',
      args,
      { cwd: PROJECT_FOLDER, timeout: 60_000, shell: process.platform === 'win32' },
      (_, output) => {
        try {
          resolve(JSON.parse(output))
        } catch {
          resolve(null)
        }
      },
    )
  })
}

/**
 * Asks the package registry for known flaws in what is shipped. Without an answer it says so and
 * fails nothing: tests must run without a network too.
 * @returns {Promise<number>} flaws that fail the run
 */
export async function auditPackages() {
  const report = await askRegistry()
  const reason = whyNoReport(report)
  if (report === null || reason !== null) {
    console.warn(`Packages were not audited, the registry gave no report: ${reason}`)
    return 0
  }
  const flaws = graveFlaws(report, new Date().toISOString().slice(0, 10))
  for (const flaw of flaws) console.error(`FAILED: flaw in a shipped package: ${flaw}`)
  if (flaws.length === 0) console.log('Packages were audited: no grave flaw in what is shipped.')
  return flaws.length
}
