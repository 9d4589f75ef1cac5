import { z } from 'zod'
import { Habitat, Incident, Nest, Protection } from './birds.ts'
import { Equipment } from './equipment.ts'
import { FeederHeader } from './header.ts'
import { Access, KeepOut } from './land.ts'
import { Load } from './load.ts'
import { Pole } from './pole.ts'
import { Span } from './span.ts'

/** A whole feeder as it is read, stored, served and solved. */
export const Feeder = z.object({
  header: FeederHeader,
  poles: z.array(Pole),
  spans: z.array(Span),
  equipment: z.array(Equipment),
  loads: z.array(Load),
  nests: z.array(Nest),
  habitat: z.array(Habitat),
  incidents: z.array(Incident),
  protections: z.array(Protection),
  access: z.array(Access),
  keepOuts: z.array(KeepOut),
})
export type Feeder = z.infer<typeof Feeder>
