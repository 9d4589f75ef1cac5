import { PHASES } from '#domain/units/phases.ts'
import type { Regulator } from './equipment.ts'
import type { Finding } from './finding.ts'
import { isBypassed } from './is-bypassed.ts'

type Report = (severity: Finding['severity'], code: string, what: string, remedy: string) => Finding

/** Positions and serial numbers of one bank. The range acts on no bank that stands bypassed. */
export function checkRegulator(bank: Regulator, report: Report): Finding[] {
  return [...(isBypassed(bank) ? [] : rangeFindings(bank, report)), ...serialFindings(bank, report)]
}

function rangeFindings(bank: Regulator, report: Report): Finding[] {
  const { maxRaise, maxLower } = bank
  const beyond = PHASES.filter((phase) => {
    const tap = bank[`tap${phase}`]
    return tap > maxRaise || tap < -maxLower
  })
  if (beyond.length === 0) return []
  return [
    report(
      'error',
      'tap-beyond-range',
      `The position on ${beyond.join(', ')} lies beyond its range (+${maxRaise} to −${maxLower}).`,
      'Correct the position, or max_raise and max_lower.',
    ),
  ]
}

function serialFindings(bank: Regulator, report: Report): Finding[] {
  const named = PHASES.filter((phase) => bank[`serial${phase}`] !== undefined)
  const without = named.filter((phase) => !bank.phases.includes(phase))
  const twice = named.filter((phase) =>
    named.some((other) => other !== phase && bank[`serial${other}`] === bank[`serial${phase}`]),
  )
  const findings: Finding[] = []
  if (without.length > 0) {
    findings.push(
      report(
        'warning',
        'serial-without-unit',
        `It has a serial number for ${without.join(', ')}, but units on ${bank.phases} only.`,
        'Remove the serial number, or correct phases.',
      ),
    )
  }
  if (twice.length > 0) {
    findings.push(
      report(
        'warning',
        'serial-twice',
        `Its units on ${twice.join(', ')} have the same serial number, ${bank[`serial${twice[0] ?? 'A'}`]}.`,
        `Read the nameplates and correct ${twice.map((phase) => `serial_${phase.toLowerCase()}`).join(', ')}.`,
      ),
    )
  }
  return findings
}
