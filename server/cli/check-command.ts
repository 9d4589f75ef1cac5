import type { Finding } from '#domain/feeder/finding.ts'
import type { Command } from './command.ts'
import { findingLine, refusalCode } from './finding-line.ts'
import { readArguments } from './read-arguments.ts'

const HELP = `Usage: crossarm check <feeder folder>

Reads a feeder and lists everything that is wrong or worth knowing, one finding to a line:
file: feature id: severity: what is wrong, and what to do [name of the rule]

Errors go to the error stream: a feeder with errors is refused whole. Warnings and notices go to
the output; a feeder with them can be solved.

  <feeder folder>  a feeder folder, or one zip of it

Exit code: 0 no errors and no warnings; 1 errors or warnings; 2 bad usage or unreadable input.`

export const checkCommand: Command = {
  name: 'check',
  summary: 'list what is wrong in a feeder folder and what to do about it',
  help: HELP,
  async run(args, streams, tools) {
    const { folder } = readArguments(args, {})
    const { feeder, findings } = await tools.readFolder(folder)
    for (const finding of findings) {
      const write = finding.severity === 'error' ? streams.err : streams.out
      write(findingLine(finding, tools))
    }
    streams.out(counted(findings))
    if (!feeder) return refusalCode(findings, tools)
    return findings.some(({ severity }) => severity === 'warning') ? 1 : 0
  },
}

function counted(findings: readonly Finding[]): string {
  const count = (severity: Finding['severity'], noun: string) => {
    const number = findings.filter((finding) => finding.severity === severity).length
    return `${number} ${noun}${number === 1 ? '' : 's'}`
  }
  return `${count('error', 'error')}, ${count('warning', 'warning')}, ${count('notice', 'notice')}.`
}
