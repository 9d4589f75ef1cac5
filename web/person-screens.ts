import type { ComponentType } from 'react'
import type { Person } from './api/actor.ts'
import { CoordinatorDesk } from './coordinator/coordinator-desk.tsx'
import { CoordinatorMapLayers } from './coordinator/coordinator-map-layers.tsx'
import { MapKey } from './coordinator/map-key.tsx'
import { CrewDesk } from './crew/crew-desk.tsx'
import { CrewMapLayers } from './crew/crew-map-layers.tsx'
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

export const PERSON_SCREENS: Record<Person, PersonScreens> = {
  planner: { Desk: PlannerDesk, MapLayers: PlannerLayers, LegendRows: PlannerLegend },
  coordinator: { Desk: CoordinatorDesk, MapLayers: CoordinatorMapLayers, LegendRows: MapKey },
  crew: { Desk: CrewDesk, MapLayers: CrewMapLayers },
}
