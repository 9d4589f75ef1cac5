import { describe, expect, it } from 'vitest'
import { actingRole } from '../../../web/api/actor.ts'

describe('a person with several roles', () => {
  it('acts in the role of the open desk where it may do what is asked', () => {
    const roles = ['supervisor', 'coordinator'] as const
    const right = 'record or change a guard, cover or perch'
    expect(actingRole(roles, right, 'coordinator')).toBe('coordinator')
    expect(actingRole(roles, right, 'planner')).toBe('supervisor')
  })

  it('acts in another of the roles where that of the desk may not', () => {
    const roles = ['planner', 'administrator'] as const
    expect(actingRole(roles, 'manage people and tokens', 'planner')).toBe('administrator')
    expect(actingRole(roles, 'run a siting study', 'crew')).toBe('planner')
  })

  it('is a reader last, since a reader is shown least', () => {
    const seeing = 'see feeders and solve voltages'
    expect(actingRole(['reader', 'crew'], seeing, 'planner')).toBe('crew')
    expect(actingRole(['reader'], seeing, 'planner')).toBe('reader')
  })

  it('takes no role that the person does not have, even where none may', () => {
    expect(actingRole(['crew'], 'run a siting study', 'planner')).toBe('crew')
  })
})
