import fc from 'fast-check'
import { Feeder } from '#domain/feeder/feeder.ts'
import { PHASE_PAIRS, PHASES, type Phase, type PhaseSet } from '#domain/units/phases.ts'

/**
 * Small unbalanced radial feeders of every kind of part that the power flow knows: matrix line
 * types with mutual coupling and charging, loads of all shares in wye and delta, spread loads,
 * capacitors, generation, regulators at fixed positions or bypassed and series transformers.
 */

const NOMINAL_KV = 12.47
const LOW_KV = 4.16
const MOST_POLES = 12

/** 0 to 1 in even steps: doubles drawn by their bits would nearly all be tiny. */
const unit = fc.integer({ min: 0, max: 1000 }).map((x) => x / 1000)
const between = (min: number, max: number) => unit.map((x) => min + x * (max - min))
const signed = (most: number) => between(-most, most)

type Json = Record<string, unknown>

/** Full three-phase matrix; spans of fewer phases use its rows. Diagonally dominant, as real lines are. */
const lineType = fc
  .record({
    selfOhm: fc.tuple(between(0.15, 0.6), between(0.4, 0.8)),
    mutualOhm: fc.tuple(between(0.03, 0.07), between(0.12, 0.2)),
    unevenness: fc.array(unit, { minLength: 6, maxLength: 6 }),
    chargingMicrosiemens: between(0, 120),
  })
  .map(({ selfOhm, mutualOhm, unevenness, chargingMicrosiemens }): Json => {
    const names = ['AA', 'BB', 'CC', 'AB', 'AC', 'BC']
    const spread = (i: number) => 0.85 + 0.3 * (unevenness[i] ?? 0)
    const pair = (name: string, i: number) => {
      const [r, x] = name[0] === name[1] ? selfOhm : mutualOhm
      return [r * spread(i), x * spread(i)]
    }
    const charging = (name: string, i: number) =>
      chargingMicrosiemens * (name[0] === name[1] ? 1 : -0.2) * spread(i)
    return {
      kind: 'matrix',
      name: 'random line',
      zOhmPerKm: Object.fromEntries(names.map((name, i) => [name, pair(name, i)])),
      bMicrosiemensPerKm: Object.fromEntries(names.map((name, i) => [name, charging(name, i)])),
    }
  })

const shares = fc
  .oneof(
    fc.constantFrom([1, 0, 0], [0, 1, 0], [0, 0, 1]),
    fc.tuple(between(0.1, 1), between(0.1, 1), between(0.1, 1)),
  )
  .map(([p = 1, i = 0, z = 0]) => {
    const sum = p + i + z
    return {
      constantPower: p / sum,
      constantCurrent: i / sum,
      constantImpedance: 1 - p / sum - i / sum,
    }
  })

const load = fc.record({
  connection: fc.constantFrom('wye', 'delta'),
  isSpread: fc.boolean(),
  kw: fc.tuple(between(0, 180), between(0, 180), between(0, 180)),
  kvar: fc.tuple(signed(70), between(0, 70), between(0, 70)),
  shares,
})

/** In about one of `oneIn` cases, else null. */
const sometimes = <Value>(oneIn: number, arbitrary: fc.Arbitrary<Value>) =>
  fc.oneof({ weight: oneIn - 1, arbitrary: fc.constant(null) }, { weight: 1, arbitrary })

const regulator = fc.record({
  windingType: fc.constantFrom('A', 'B'),
  phasesFitted: fc.integer({ min: 1, max: 7 }),
  taps: fc.tuple(...PHASES.map(() => fc.integer({ min: -12, max: 12 }))),
  state: fc.constantFrom('in service', 'bypassed', undefined),
})

const transformer = fc.record({
  connection: fc.constantFrom('grounded-wye-grounded-wye', 'delta-grounded-wye'),
  ratingKva: between(800, 4000),
  rPct: between(0.3, 1.5),
  xPct: between(1, 6),
})

const atPole = fc.record({
  parent: unit,
  phasesKept: fc.oneof(fc.constant(7), fc.integer({ min: 1, max: 7 })),
  lengthM: between(60, 2000),
  lineType: fc.nat(),
  load: sometimes(2, load),
  capacitorKvar: sometimes(6, fc.tuple(between(0, 60), between(0, 60), between(0, 60))),
  solarKw: sometimes(6, between(5, 90)),
  /** Series devices at the near end, in this order. */
  regulator: sometimes(4, regulator),
  transformer: sometimes(5, transformer),
  regulatorBehind: sometimes(8, regulator),
})

const source = fc.record({
  pole: fc.constant('n0'),
  voltagePu: fc.record({ A: between(0.98, 1.05), B: between(0.98, 1.05), C: between(0.98, 1.05) }),
  angleDeg: signed(180),
  impedance: fc.option(
    fc.record({
      r1Ohm: between(0.01, 0.2),
      x1Ohm: between(0.1, 0.6),
      r0Ohm: between(0.05, 0.3),
      x0Ohm: between(0.2, 0.9),
    }),
    { nil: undefined },
  ),
})

type PoleChoice = typeof atPole extends fc.Arbitrary<infer Value> ? Value : never
interface Built {
  readonly phases: PhaseSet
  readonly kv: number
}

export const randomFeeder: fc.Arbitrary<Feeder> = fc
  .record({
    source,
    lineTypes: fc.array(lineType, { minLength: 1, maxLength: 3 }),
    poles: fc.array(atPole, { minLength: 1, maxLength: MOST_POLES - 1 }),
    loadFactor: between(0.4, 1.2),
  })
  .map(({ source, lineTypes, poles, loadFactor }) => {
    const layers = { spans: [] as Json[], equipment: [] as Json[], loads: [] as Json[] }
    const built: Built[] = [{ phases: 'ABC', kv: NOMINAL_KV }]
    poles.forEach((choice, i) => {
      built.push(addPole(choice, i + 1, built, lineTypes.length, layers))
    })
    return Feeder.parse({
      header: {
        format: 'crossarm-feeder-1',
        id: 'random',
        name: 'Random feeder',
        nominalKv: NOMINAL_KV,
        source,
        lineTypes: lineTypes.map((type, i) => ({ ...type, id: `line${i}` })),
        cases: [{ id: 'only', name: 'Only case', loadFactor, generationFactor: 0.7 }],
      },
      poles: built.map((_, i) => ({ id: `n${i}`, at: place(i) })),
      ...layers,
      nests: [],
      habitat: [],
      incidents: [],
      protections: [],
      access: [],
      keepOuts: [],
    })
  })

const place = (i: number): [number, number] => [-100 + i / 1000, 40 + (i % 3) / 1000]

function addPole(
  choice: PoleChoice,
  index: number,
  built: readonly Built[],
  lineTypeCount: number,
  layers: { spans: Json[]; equipment: Json[]; loads: Json[] },
): Built {
  const parentIndex = Math.min(index - 1, Math.floor(choice.parent * index))
  const parent = built[parentIndex]!
  const phases = keptPhases(parent.phases, choice.phasesKept)
  const span = `s${index}`
  const near = `n${parentIndex}`
  const pole = `n${index}`
  const kv = addDevices(choice, { span, near, phases, parent }, layers.equipment)
  layers.spans.push({
    id: span,
    from: near,
    to: pole,
    path: [place(parentIndex), place(index)],
    phases,
    lineType: `line${choice.lineType % lineTypeCount}`,
    lengthM: choice.lengthM * (kv / NOMINAL_KV) ** 2,
  })
  if (choice.load) {
    const where = choice.load.isSpread ? { span } : { pole }
    layers.loads.push({ id: `l${index}`, ...where, ...loadColumns(choice.load, phases) })
  }
  addShunts(choice, pole, phases, layers.equipment)
  return { phases, kv }
}

/** Always at least one phase, and never one that the parent lacks. */
function keptPhases(parent: PhaseSet, mask: number): PhaseSet {
  const kept = PHASES.filter((phase, i) => parent.includes(phase) && (mask >> i) & 1)
  return (kept.length > 0 ? kept.join('') : parent) as PhaseSet
}

interface SpanEnds {
  readonly span: string
  readonly near: string
  readonly phases: PhaseSet
  readonly parent: Built
}

/** Adds the series devices that can stand at the span's near end; returns kilovolts behind them. */
function addDevices(choice: PoleChoice, ends: SpanEnds, equipment: Json[]): number {
  const { span, near, phases, parent } = ends
  const addRegulator = (id: string, wanted: PoleChoice['regulator']) => {
    if (wanted === null) return
    const [tapA, tapB, tapC] = wanted.taps
    const fitted = keptPhases(phases, wanted.phasesFitted)
    const settings = { ptRatio: 60, ctPrimaryA: 200, bandCentreV: 122, bandwidthV: 2 }
    const { windingType, state } = wanted
    equipment.push({
      id,
      pole: near,
      span,
      phases: fitted,
      kind: 'regulator',
      ...settings,
      windingType,
      state,
      tapA,
      tapB,
      tapC,
    })
  }
  addRegulator(`r-${span}`, choice.regulator)
  if (choice.transformer === null || parent.kv !== NOMINAL_KV) return parent.kv
  const { connection, ...impedance } = choice.transformer
  const fits = connection !== 'delta-grounded-wye' || phases === 'ABC'
  equipment.push({
    id: `t-${span}`,
    pole: near,
    span,
    phases,
    kind: 'transformer',
    highKv: NOMINAL_KV,
    lowKv: LOW_KV,
    ...impedance,
    connection: fits ? connection : 'grounded-wye-grounded-wye',
  })
  addRegulator(`q-${span}`, choice.regulatorBehind)
  return LOW_KV
}

function loadColumns(
  { connection, kw, kvar, shares }: NonNullable<PoleChoice['load']>,
  set: PhaseSet,
) {
  const has = (phase: string | undefined) => phase !== undefined && set.includes(phase as Phase)
  const pairs = PHASE_PAIRS.filter(([a, b]) => has(a) && has(b))
  const isDelta = connection === 'delta' && pairs.length > 0
  const names = isDelta
    ? pairs.map((pair) => pair[0] + (pair[1] ?? '').toLowerCase())
    : PHASES.filter((phase) => has(phase))
  const columns = names.flatMap((name, i) => [
    [`kw${name}`, kw[i % 3]],
    [`kvar${name}`, kvar[i % 3]],
  ])
  return { connection: isDelta ? 'delta' : 'wye', ...shares, ...Object.fromEntries(columns) }
}

function addShunts(choice: PoleChoice, pole: string, phases: PhaseSet, equipment: Json[]): void {
  if (choice.capacitorKvar) {
    const kvar = PHASES.map((phase, i) => [
      `kvar${phase}`,
      phases.includes(phase) ? choice.capacitorKvar?.[i] : 0,
    ])
    equipment.push({
      id: `c-${pole}`,
      pole,
      phases,
      kind: 'capacitor',
      ...Object.fromEntries(kvar),
    })
  }
  if (choice.solarKw !== null) {
    const rating = { ratedKw: choice.solarKw, powerFactor: choice.parent > 0.5 ? 0.95 : -0.97 }
    equipment.push({ id: `g-${pole}`, pole, phases, kind: 'solar', ...rating })
  }
}
