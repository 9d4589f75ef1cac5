import { type ComponentType, lazy } from 'react'
import type { Person } from './api/actor.ts'
import { PlannerDesk } from './planner/planner-desk.tsx'
import { PlannerLayers } from './planner/planner-layers.tsx'
import { PlannerLegend } from './planner/planner-legend.tsx'

/** What a person's folder brings; app.tsx says how each part is used. */
export interface PersonScreens {
  readonly Desk: ComponentType
  readonly MapLayers?: ComponentType
  readonly Strip?: ComponentType
  /** Rows of the legend for what MapLayers draws. */
  readonly LegendRows?: ComponentType
}

/** The page opens on the planner; the others' screens come when they are asked for. */
export const PERSON_SCREENS: Record<Person, PersonScreens> = {
  planner: { Desk: PlannerDesk, MapLayers: PlannerLayers, LegendRows: PlannerLegend },
  coordinator: {
    Desk: later(async () => (await import('./coordinator/coordinator-desk.tsx')).CoordinatorDesk),
    MapLayers: later(
      async () =>
        (await import('./coordinator/map/coordinator-map-layers.tsx')).CoordinatorMapLayers,
    ),
    LegendRows: later(async () => (await import('./coordinator/map/map-key.tsx')).MapKey),
  },
  crew: {
    Desk: later(async () => (await import('./crew/crew-desk.tsx')).CrewDesk),
    MapLayers: later(async () => (await import('./crew/crew-map-layers.tsx')).CrewMapLayers),
  },
  supervisor: {
    Desk: later(async () => (await import('./supervisor/supervisor-desk.tsx')).SupervisorDesk),
    MapLayers: later(
      async () => (await import('./supervisor/map/supervisor-map-layers.tsx')).SupervisorMapLayers,
    ),
    LegendRows: later(async () => (await import('./supervisor/map/jobs-key.tsx')).JobsKey),
  },
}

function later(load: () => Promise<ComponentType>): ComponentType {
  return lazy(async () => ({ default: await load() }))
}
