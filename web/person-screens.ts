import type { ComponentType } from 'react'
import type { Person } from './api/actor.ts'
import { PlannerDesk } from './planner/planner-desk.tsx'

/** What a person's folder brings; app.tsx says how each part is used. */
export interface PersonScreens {
  readonly Desk: ComponentType
  readonly MapLayers?: ComponentType
  readonly Strip?: ComponentType
}

export const PERSON_SCREENS: Record<Person, PersonScreens> = {
  planner: { Desk: PlannerDesk },
  coordinator: { Desk: PlannerDesk },
  crew: { Desk: PlannerDesk },
}
