import { describe, expect, it } from 'vitest'
import { fileNameOf, jobWaypoints } from '../../../web/crew/jobs/job-waypoints.ts'
import { readDemoFeeder } from '../../support/demo-feeder.ts'

describe('the waypoints of a job', () => {
  it('are its poles in the order of the round, and each gate on the way once', async () => {
    const feeder = await readDemoFeeder('thimble')
    const order = feeder.poles.slice(40, 44).map(({ id }) => id)
    const points = jobWaypoints({ title: 'Covers at the creek' }, feeder, order)
    expect(points.slice(0, 4).map(({ name }) => name)).toEqual(order)
    expect(points[0]?.description).toContain('Covers at the creek')
    const gates = points.slice(4)
    expect(gates.length).toBeGreaterThan(0)
    expect(new Set(gates.map(({ name }) => name)).size).toBe(gates.length)
    expect(gates[0]?.description).toMatch(/^Gate toward pole/)
  })
})

describe('the name of a file', () => {
  it('holds only what every device takes', () => {
    expect(fileNameOf('Change-out at S-145 / north', 'gpx')).toBe('change-out-at-s-145-north.gpx')
    expect(fileNameOf('…', 'kml')).toBe('job.kml')
  })
})
