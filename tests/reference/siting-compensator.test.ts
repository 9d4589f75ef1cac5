import { describe, expect, test } from 'vitest'
import { compileNetwork } from '#domain/electrical/compile-network.ts'
import { beginStudy } from '#domain/siting/begin-study.ts'
import { examinePlacement } from '#domain/siting/examine-placement.ts'
import { sitesOf } from '#domain/siting/placement.ts'
import { screenFeeder } from '#domain/siting/screen.ts'
import { zoneOf } from '#domain/siting/settings/bank-zone.ts'
import {
  compensatorVolts,
  equivalentImpedance,
  meanImpedance,
} from '#domain/siting/settings/equivalent-impedance.ts'
import { loadCentres } from '#domain/siting/settings/load-centres.ts'
import { readPhases } from '#domain/siting/settings/read-phases.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { complex, magnitude, multiply, polar, scale, subtract } from '#domain/units/complex.ts'
import { sampleFeeder, straightLine } from '../unit/siting/sample-feeder.ts'

/**
 * Kersting, Distribution System Modeling and Analysis, chapter 7, the compensator worked through:
 * 4.16 kV, line 0.3 + j0.9 ohm, CT 700:5 A, PT 20:1, load 2500 kVA at 0.9 lagging (from memory; the
 * arithmetic was redone).
 */
describe('The worked example of a compensator', () => {
  const CT_A = 700
  const PT = 20
  const LINE = complex(0.3, 0.9)

  test('the line set in volts is 10.5 + j31.5', () => {
    const { rV, xV } = compensatorVolts(LINE, CT_A, PT)
    expect(rV).toBeCloseTo(10.5, 9)
    expect(xV).toBeCloseTo(31.5, 9)
  })

  test('the volts that it gives at the bank and the load centre lead back to the line', () => {
    const reading = {
      bankV: complex(2614.18),
      centreV: polar(2412.8, -5.15),
      lineA: polar(318.77, -25.84),
    }
    const ohms = equivalentImpedance(reading)
    expect(ohms.re).toBeCloseTo(0.3, 2)
    expect(ohms.im).toBeCloseTo(0.9, 2)
    const { rV, xV } = compensatorVolts(ohms, CT_A, PT)
    expect(rV).toBeCloseTo(10.5, 0)
    expect(xV).toBeCloseTo(31.5, 0)
  })

  test('without the bank the control reads 109.24 V at −6.19°', () => {
    const { rV, xV } = compensatorVolts(LINE, CT_A, PT)
    const lineA = polar(346.97, -25.84)
    const relayV = subtract(complex(120.09), multiply(complex(rV, xV), scale(lineA, 1 / CT_A)))
    expect(magnitude(relayV)).toBeCloseTo(109.24, 1)
    expect((Math.atan2(relayV.im, relayV.re) * 180) / Math.PI).toBeCloseTo(-6.19, 1)
  })

  test('three phases are set alike, by their mean; one that carries nothing is left out', () => {
    const phase = (ohms: number, amps: number) => ({
      bankV: complex(2400),
      centreV: complex(2400 - ohms * amps),
      lineA: complex(amps),
    })
    const readings = [phase(1, 100), phase(2, 200), phase(3, 150), phase(50, 1)]
    expect(meanImpedance(readings, CT_A)?.re).toBeCloseTo(2, 9)
    expect(meanImpedance([phase(50, 1)], CT_A)).toBeNull()
  })
})

/**
 * Uniform load behind the bank: R = r (l − s) / 2, X = x (l − s) / 2; with r 0.386 and x 0.4826 ohm
 * per mile, l 10 mi, s 1.75 mi: 1.5923 and 1.9907 ohm, 3.761 and 4.703 V with CT 150 A and PT 63.5
 * (Gonen, Electric Power Distribution Engineering, chapter 9, from memory; the arithmetic was redone).
 */
describe('The worked example of a bank on a line with even load', () => {
  test('the equivalent impedance to the end of the line is half of what lies beyond', () => {
    const SPANS = 400
    const MILE_KM = 1.609344
    const line = straightLine(SPANS + 1, 40)
    const spanKm = (10 * MILE_KM) / SPANS
    const nominalV = 7620
    const feeder = sampleFeeder({
      ...line,
      spans: line.spans.map((span) => ({ ...span, lengthM: spanKm * 1000 })),
      nominalKv: (nominalV * Math.sqrt(3)) / 1000,
      sourcePu: 1.035,
      ohmPerKm: [0.386 / MILE_KM, 0.4826 / MILE_KM],
      loads: line.spans.map(({ from, to }) => ({
        id: `load-${to}`,
        span: `${from}:${to}`,
        kwA: 0.9 * (4000 / 3 / SPANS),
        kwB: 0.9 * (4000 / 3 / SPANS),
        kwC: 0.9 * (4000 / 3 / SPANS),
        kvarA: 0.436 * (4000 / 3 / SPANS),
        kvarB: 0.436 * (4000 / 3 / SPANS),
        kvarC: 0.436 * (4000 / 3 / SPANS),
        constantPower: 0,
        constantCurrent: 1,
        customers: 1,
      })),
    })
    const request = SiteRequest.parse({})
    const { cases } = feeder.header
    const compiled = compileNetwork(feeder)
    if (compiled.status !== 'compiled') throw new Error(compiled.status)
    const { network } = compiled
    const study = beginStudy(feeder, network, cases, request)
    if ('status' in study) throw new Error(study.what)
    const { candidates } = screenFeeder(feeder, request, cases)
    const bankPole = `p${(1.75 / 10) * SPANS}`
    const sites = sitesOf(
      network,
      candidates.filter(({ poleId }) => poleId === bankPole),
    )
    const [bank] = examinePlacement(study, sites)?.banks ?? []
    const [bench] = study.benches
    if (!bank || !bench) throw new Error('Expected a bank that settles.')
    const zone = zoneOf(network, study.judge, bank, [])
    const [centre] = loadCentres(bench.sweep, study.judge, bench.pu, zone)
    expect(network.nodePoleIds[centre?.node ?? -1]).toBe(`p${SPANS}`)
    const readings = readPhases(bench.sweep, bank, centre?.node ?? -1)
    const ohms = meanImpedance([...readings.values()], 150)
    expect((ohms?.re ?? 0) / 1.5923).toBeCloseTo(1, 2)
    expect((ohms?.im ?? 0) / 1.9907).toBeCloseTo(1, 2)
    const { rV, xV } = compensatorVolts(ohms ?? complex(0), 150, 63.5)
    expect(rV / 3.761).toBeCloseTo(1, 2)
    expect(xV / 4.703).toBeCloseTo(1, 2)
  })
})
