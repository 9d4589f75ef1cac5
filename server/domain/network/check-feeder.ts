import { type PhaseMask, phaseMask, phasesOfMask } from '#domain/units/phases.ts'
import type { Feeder } from '../feeder/feeder.ts'
import type { Finding } from '../feeder/finding.ts'
import type { Load } from '../feeder/load.ts'
import { checkBypassedBanks } from './check-bypassed-banks.ts'
import { checkVoltages } from './check-voltages.ts'
import { type Report, reporter } from './finding-reporter.ts'
import { loadMask } from './load-phases.ts'
import { changesVoltage, isOpen, seriesEquipmentBySpan } from './series-equipment.ts'
import { type FeederTrace, type TracedSpan, traceFeeder } from './trace-feeder.ts'

/**
 * What is wrong with the way the feeder hangs together: loops, poles without power, phases that
 * do not arrive, series equipment that faces the wrong way. Errors mean that it cannot be solved.
 */
export function checkFeeder(feeder: Feeder): Finding[] {
  const trace = traceFeeder(feeder)
  const report = reporter(feeder)
  return [
    ...sourceFindings(feeder, trace, report),
    ...loopFindings(trace, report),
    ...islandFindings(feeder, trace, report),
    ...trace.spans.flatMap((traced) => spanFindings(traced, trace, report)),
    ...checkVoltages(feeder, trace, report),
    ...checkBypassedBanks(feeder, report),
    ...feeder.loads.flatMap(loadCheck(trace, report)),
  ]
}

/** All three, as they leave the source. */
const ALL_PHASES = 7

function sourceFindings(feeder: Feeder, trace: FeederTrace, report: Report): Finding[] {
  const source = feeder.header.source.pole
  if (!feeder.poles.some((pole) => pole.id === source)) {
    return [
      report(
        'error',
        'source-missing',
        'feeder',
        feeder.header.id,
        `The source stands on pole "${source}", which is not in the poles layer.`,
        'Add the pole, or name another one in source.pole.',
      ),
    ]
  }
  if (trace.spans.length > 0 || feeder.spans.length === 0) return []
  return [
    report(
      'error',
      'source-not-connected',
      'feeder',
      feeder.header.id,
      `No closed span starts or ends at the source pole "${source}".`,
      'Connect a span to it, or close its switch.',
      source,
    ),
  ]
}

function loopFindings(trace: FeederTrace, report: Report): Finding[] {
  return trace.loops.map(({ closing, path }) =>
    report(
      'error',
      'loop',
      'spans',
      closing.id,
      `The span closes a loop with ${listed(path)}; the feeder must be radial.`,
      'Mark one span of the loop as normally open, or open a switch on it.',
      closing.from,
    ),
  )
}

/** One finding for each group of poles that no closed way joins to the source. */
function islandFindings(feeder: Feeder, trace: FeederTrace, report: Report): Finding[] {
  const dark = new Set(feeder.poles.map(({ id }) => id).filter((id) => !trace.feedingSpan.has(id)))
  if (dark.size === 0) return []
  const devicesBySpan = seriesEquipmentBySpan(feeder)
  const joins = new Map<string, string[]>()
  const openTo = new Map<string, string>()
  for (const span of feeder.spans) {
    if (isOpen(span, devicesBySpan.get(span.id) ?? [])) {
      openTo.set(span.from, span.id).set(span.to, span.id)
      continue
    }
    joins.set(span.from, [...(joins.get(span.from) ?? []), span.to])
    joins.set(span.to, [...(joins.get(span.to) ?? []), span.from])
  }
  return groupsOf(dark, joins).map((poles) => islandFinding(poles, openTo, report))
}

function islandFinding(
  poles: readonly string[],
  openTo: ReadonlyMap<string, string>,
  report: Report,
): Finding {
  const first = poles[0] ?? ''
  const open = poles.map((pole) => openTo.get(pole)).find((span) => span !== undefined)
  const count =
    poles.length === 1 ? `Pole ${first} has` : `${poles.length} poles (${listed(poles)}) have`
  return open === undefined
    ? report(
        'warning',
        'island',
        'poles',
        first,
        `${count} no way to the source.`,
        'Connect a span, or remove them.',
      )
    : report(
        'notice',
        'open-island',
        'poles',
        first,
        `${count} no power while span ${open} is open.`,
        'Nothing to do if the switch is meant to be open.',
      )
}

function groupsOf(
  members: ReadonlySet<string>,
  joins: ReadonlyMap<string, readonly string[]>,
): string[][] {
  const seen = new Set<string>()
  const groups: string[][] = []
  for (const start of members) {
    if (seen.has(start)) continue
    seen.add(start)
    const group = [start]
    for (const pole of group) {
      for (const next of joins.get(pole) ?? []) {
        if (!members.has(next) || seen.has(next)) continue
        seen.add(next)
        group.push(next)
      }
    }
    groups.push(group)
  }
  return groups
}

function spanFindings(traced: TracedSpan, trace: FeederTrace, report: Report): Finding[] {
  const { span, mask, devices, isReversed, nearPole } = traced
  const findings: Finding[] = []
  const missing = phaseMask(span.phases) & ~mask
  const feeding = trace.spans[traced.parent]
  if (missing !== 0 && feeding) {
    findings.push(
      report(
        'warning',
        'phase-not-fed',
        'spans',
        span.id,
        `${named(missing)} of the span does not arrive: span ${feeding.span.id} before it brings ${named(feeding.mask)}.`,
        'Correct the phases of one of the two spans.',
        nearPole,
      ),
    )
  }
  const oneWay = devices.find(changesVoltage)
  if (isReversed && oneWay) {
    findings.push(
      report(
        'error',
        'series-equipment-backwards',
        'equipment',
        oneWay.id,
        `It sits at the near end of span ${span.id}, but power reaches that span from its other end.`,
        `Swap from and to of span ${span.id}, or move the device.`,
        nearPole,
      ),
    )
  }
  return [...findings, ...deltaFindings(traced, report)]
}

/** A delta side with a phase missing floats: what stands behind it has no voltage that could be told. */
function deltaFindings({ span, mask, devices, nearPole }: TracedSpan, report: Report): Finding[] {
  if (mask === ALL_PHASES) return []
  return devices
    .filter((device) => device.kind === 'transformer' && device.connection === 'delta-grounded-wye')
    .map((device) =>
      report(
        'error',
        'delta-lacks-phase',
        'equipment',
        device.id,
        `Its delta side needs all three phases, but only ${named(mask)} arrives on span ${span.id}.`,
        'Correct the phases of the line before it, or its connection.',
        nearPole,
      ),
    )
}

/** Checks one load at a time against the phases that arrive where it stands. */
function loadCheck(trace: FeederTrace, report: Report): (load: Load) => Finding[] {
  const tracedSpans = new Map(trace.spans.map((traced) => [traced.span.id, traced]))
  return (load) => {
    const place = placeOf(load, trace, tracedSpans)
    const missing = place ? loadMask(load) & ~place.arriving : 0
    if (!place || missing === 0) return []
    return [
      report(
        'warning',
        'load-not-fed',
        'loads',
        load.id,
        `It draws from ${named(missing)}, which does not arrive there; that part is left out of the solution.`,
        'Correct the phases of the load or of the line.',
        place.pole,
      ),
    ]
  }
}

/** Null where the load has no power at all: the island is reported, not each load in it. */
function placeOf(
  load: Load,
  trace: FeederTrace,
  tracedSpans: ReadonlyMap<string, TracedSpan>,
): { pole: string; arriving: PhaseMask } | null {
  if (load.span !== undefined) {
    const traced = tracedSpans.get(load.span)
    return traced ? { pole: traced.nearPole, arriving: traced.mask } : null
  }
  const feeding = load.pole === undefined ? undefined : trace.feedingSpan.get(load.pole)
  if (load.pole === undefined || feeding === undefined) return null
  return { pole: load.pole, arriving: trace.spans[feeding]?.mask ?? ALL_PHASES }
}

function named(mask: PhaseMask): string {
  const phases = phasesOfMask(mask)
  return `phase${phases.length > 1 ? 's' : ''} ${phases.join(', ') || 'none'}`
}

/** At most five ids in full, then how many more. */
function listed(ids: readonly string[]): string {
  const shown = ids.slice(0, 5).join(', ')
  return ids.length > 5 ? `${shown} and ${ids.length - 5} more` : shown
}
