import { Regulator } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { smallFeeder } from './small-feeder.ts'

/** The small feeder under another id, with a bank that stands at pole P3. */
export function bankedFeeder(id = 'banked'): Feeder {
  const bank = Regulator.parse({
    id: 'R3',
    kind: 'regulator',
    pole: 'P3',
    span: 'S3',
    phases: 'ABC',
    windingType: 'B',
    ratingKva: 76.2,
    ratingA: 100,
    ptRatio: 60,
    ctPrimaryA: 100,
    bandCentreV: 122,
    bandwidthV: 2,
  })
  return { ...smallFeeder({ id }), equipment: [bank] }
}
