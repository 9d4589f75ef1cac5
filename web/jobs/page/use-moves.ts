import { mayMoveTo } from '#contract/job-moves.ts'
import { JOB_MOVES, type JobMove, type JobState } from '#domain/jobs/job-state.ts'
import { useMe } from '../../api/account.ts'
import { actingRole } from '../../api/actor.ts'
import { useSelection } from '../../state/selection.ts'

/** Moves that the person may make from a state, in the role in which they act at this desk. */
export function useMoves(from: JobState): readonly JobMove[] {
  const { person } = useSelection()
  const roles = useMe().data?.roles ?? []
  const role = actingRole(roles, 'move a job', person)
  return JOB_MOVES.filter((move) => move.from === from && mayMoveTo(role, move.to))
}
