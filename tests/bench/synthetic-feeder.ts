import type { Feeder } from '#domain/feeder/feeder.ts'
import type { LineType } from '#domain/feeder/line-type.ts'
import type { Load } from '#domain/feeder/load.ts'
import type { Pole } from '#domain/feeder/pole.ts'
import type { Span } from '#domain/feeder/span.ts'
import { PHASES, type PhaseSet } from '#domain/units/phases.ts'

const TRUNK_KM = 30
const TOTAL_KW = 3600
/** Poles of a lateral, behind each pole of the trunk. */
const LATERAL_POLES = 9
const LATERAL_SPAN_M = 80

/** Small seeded generator (mulberry32, public domain), so that two runs compare. */
function seededRandom(seed: number): () => number {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
}

/** Full three-phase matrix of an invented open-wire line, ohm/km and µS/km. */
const LINE: LineType = {
  kind: 'matrix',
  id: 'line',
  name: 'Invented open-wire line',
  ampacityA: 400,
  zOhmPerKm: {
    AA: [0.28, 0.66],
    BB: [0.285, 0.65],
    CC: [0.282, 0.655],
    AB: [0.095, 0.3],
    AC: [0.096, 0.27],
    BC: [0.094, 0.24],
  },
  bMicrosiemensPerKm: { AA: 3.9, BB: 4, CC: 3.8, AB: -1.2, AC: -0.8, BC: -0.7 },
}

/**
 * Radial 24.9 kV feeder of about `poleCount` poles: a three-phase trunk of fixed length with a
 * one-phase lateral at every pole. Length and load stay the same whatever the count, so that all
 * sizes have about the same voltages and differ only in how finely the line is cut.
 */
export function syntheticFeeder(poleCount: number, seed = 1): Feeder {
  const random = seededRandom(seed)
  const trunkPoles = Math.max(1, Math.round(poleCount / (LATERAL_POLES + 1)))
  const trunkSpanM = (TRUNK_KM * 1000) / trunkPoles
  const poles: Pole[] = []
  const spans: Span[] = []
  const loads: Load[] = []
  const kwPerLoad = TOTAL_KW / (trunkPoles * LATERAL_POLES)

  const addPole = (id: string, x: number, y: number) => {
    const at: [number, number] = [-104 + x / 85_000, 41 + y / 111_000]
    poles.push({ id, at, heightM: 13.7, poleClass: '3', isAnonymousNode: false })
    return at
  }
  const addSpan = (from: Pole, to: Pole, phases: PhaseSet, lengthM: number) =>
    spans.push({
      id: `${from.id}-${to.id}`,
      from: from.id,
      to: to.id,
      path: [from.at, to.at],
      phases,
      lineType: LINE.id,
      lengthM,
      isNormallyOpen: false,
    })

  addPole('source', 0, 0)
  let trunk = poles[0]!
  for (let i = 1; i <= trunkPoles; i++) {
    addPole(`t${i}`, i * trunkSpanM, 0)
    const next = poles.at(-1)!
    addSpan(trunk, next, 'ABC', trunkSpanM)
    trunk = next
    const phase = PHASES[Math.floor(random() * 3)]!
    let before = trunk
    for (let j = 1; j <= LATERAL_POLES; j++) {
      addPole(`t${i}.${j}`, i * trunkSpanM, j * LATERAL_SPAN_M)
      const pole = poles.at(-1)!
      addSpan(before, pole, phase, LATERAL_SPAN_M)
      loads.push(loadAt(pole.id, phase, kwPerLoad * (0.4 + 1.2 * random())))
      before = pole
    }
  }
  return {
    header: {
      format: 'crossarm-feeder-1',
      id: `synthetic-${poleCount}`,
      name: `Synthetic feeder of ${poleCount} poles`,
      nominalKv: 24.9,
      source: { pole: 'source', voltagePu: 1.03, angleDeg: 0 },
      lineTypes: [LINE],
      cases: [loadCase('peak', 1, 400), loadCase('light', 0.3, 8360)],
      limits: { lowVolts120: 118, highVolts120: 126 },
      growthPctPerYear: 0,
      coordinates: 'invented',
    },
    poles,
    spans,
    loads,
    equipment: [],
    nests: [],
    habitat: [],
    incidents: [],
    protections: [],
    access: [{ id: 'road', kind: 'road', path: [poles[0]!.at, trunk.at] }],
    keepOuts: [],
  }
}

function loadCase(id: string, loadFactor: number, hoursPerYear: number) {
  return { id, name: id, loadFactor, classFactors: {}, generationFactor: 0, hoursPerYear }
}

function loadAt(pole: string, phase: 'A' | 'B' | 'C', kw: number): Load {
  const none = { kwA: 0, kwB: 0, kwC: 0, kvarA: 0, kvarB: 0, kvarC: 0 }
  const noDelta = { kwAb: 0, kwBc: 0, kwCa: 0, kvarAb: 0, kvarBc: 0, kvarCa: 0 }
  return {
    id: `l-${pole}`,
    pole,
    connection: 'wye',
    ...none,
    ...noDelta,
    [`kw${phase}`]: kw,
    [`kvar${phase}`]: kw * 0.3,
    constantPower: 0.6,
    constantCurrent: 0,
    constantImpedance: 0.4,
    customers: 1,
    customerClass: 'residential',
  }
}
